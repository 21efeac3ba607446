import { describe, expect, it } from 'vitest';
import { GRAVITY } from '../../src/kernel/constants.ts';
import { equilibriumGap } from '../../src/kernel/equilibrium.ts';
import type { GapCoupling } from '../../src/kernel/gap-coupling.ts';
import type { PlateCoupling } from '../../src/kernel/plate-coupling.ts';
import { type Circuit, LIMIT, OUTCOME, RisingDrive } from '../../src/kernel/rising-drive.ts';
import { computePlate, layer } from '../support/wide-plate.ts';

const omega = 2 * Math.PI * 50;
const standoff = 0.002;
const farthest = 0.4;
const weight = 2.84 * GRAVITY;
const { coupling, free } = computePlate({
  innerRadius: 0.05,
  outerRadius: 0.16616,
  height: 0.016896,
  turns: 440,
  gap: standoff,
  omega,
  layers: [layer(3.5e7, 0.012)],
});
const none = Number.POSITIVE_INFINITY;
const RESTS = -1;
const inductive: Circuit = { resistance: 2.71, omega, freeInductance: free, capacitance: Number.NaN };

function raised(
  circuit: Circuit,
  limits: Partial<{ voltage: number; current: number; apparent: number }>,
  plain = true,
) {
  const drive = new RisingDrive(coupling);
  const liftoff = drive.rest(
    coupling,
    circuit,
    { voltage: none, current: none, apparent: none, ...limits },
    weight,
    standoff,
  );
  const outcome = drive.current > liftoff ? drive.raise(farthest, plain) : RESTS;
  const { gap, current, voltage, limit, voltageSlope } = drive;
  return { outcome, gap, current, voltage, limit, voltageSlope };
}

/**
 * A second method: raise the voltage in small steps and, at each, let the coil creep along the force until it is
 * carried, from where it was. No drive curve, no Newton.
 */
function creep(plate: PlateCoupling, circuit: Circuit, voltage: number): number {
  const force = (gap: number, v: number) => {
    plate.evaluate(gap);
    const reactance =
      omega * (circuit.freeInductance + plate.inductanceRe) -
      (Number.isNaN(circuit.capacitance) ? 0 : 1 / (omega * circuit.capacitance));
    const square = (circuit.resistance - omega * plate.inductanceIm) ** 2 + reactance ** 2;
    return (v * v * plate.slopeRe) / (2 * square);
  };
  let gap = standoff;
  const steps = 400;
  for (let i = 1; i <= steps; i++) {
    const v = (voltage * i) / steps;
    for (let creeping = 0; creeping < 200000; creeping++) {
      const surplus = force(gap, v) / weight - 1;
      const next = Math.max(standoff, gap + Math.max(-1e-4, Math.min(1e-4, 2e-3 * surplus)));
      if (Math.abs(next - gap) < 1e-10) break;
      gap = next;
    }
  }
  return gap;
}

describe('a drive raised slowly from zero', () => {
  it('floats at a voltage where the same current floats it', () => {
    for (const current of [9, 12, 20]) {
      const gap = equilibriumGap(coupling, (2 * weight) / current ** 2, standoff, farthest);
      const byCurrent = raised(inductive, { current });
      const byVoltage = raised(inductive, { voltage: byCurrent.voltage });
      // Newton's own tolerance
      expect(byCurrent.gap / gap).toBeCloseTo(1, 9);
      expect(byVoltage.gap / gap).toBeCloseTo(1, 8);
      expect(byVoltage.current / current).toBeCloseTo(1, 8);
      expect(byVoltage.limit).toBe(LIMIT.voltage);
    }
  });

  it('walks to the same gap as it climbs', () => {
    for (const voltage of [55, 96, 200]) {
      const climbed = raised(inductive, { voltage });
      const walked = raised(inductive, { voltage }, false);
      expect(walked.gap / climbed.gap).toBeCloseTo(1, 8);
    }
  });

  it('rests below the lift-off voltage', () => {
    const { outcome, gap, current } = raised(inductive, { voltage: 30 });
    expect(outcome).toBe(RESTS);
    expect(gap).toBe(standoff);
    expect(current).toBeLessThan(8.7);
  });

  it('stops at the first limit met and names it, ties in the order voltage, current, fuse', () => {
    const free = raised(inductive, { voltage: 100 });
    const { current, voltage } = free;
    expect(raised(inductive, { voltage: 100, current: 0.99 * current }).limit).toBe(LIMIT.current);
    expect(raised(inductive, { voltage: 100, current: 1.01 * current }).limit).toBe(LIMIT.voltage);
    const fused = raised(inductive, { voltage: 100, current: 30, apparent: 0.9 * current * voltage });
    expect(fused.limit).toBe(LIMIT.apparent);
    expect((fused.current * fused.voltage) / (0.9 * current * voltage)).toBeCloseTo(1, 8);
    expect(raised(inductive, { voltage: 10, current: none, apparent: none }).limit).toBe(LIMIT.voltage);
  });

  it('agrees with creeping up in small steps, without a capacitor', () => {
    expect(raised(inductive, { voltage: 96 }).gap).toBeCloseTo(creep(coupling, inductive, 96), 5);
  });
});

describe('with a series capacitor', () => {
  // resonance with the inductance at about 8 mm of gap
  const resonant: Circuit = { ...inductive, capacitance: 600e-6 };

  it('jumps past the unstable gaps, as creeping up in small steps does', () => {
    for (const voltage of [40, 50, 60, 80]) {
      const reached = raised(resonant, { voltage }, false);
      // the creep stops within its last step
      expect(reached.gap).toBeCloseTo(creep(coupling, resonant, voltage), 4);
    }
  });

  it('only ever reports a stable gap: there the voltage rises with the gap', () => {
    let jumped = 0;
    for (const capacitance of [250e-6, 400e-6, 600e-6, 800e-6, 1000e-6]) {
      for (let voltage = 5; voltage < 120; voltage += 2.5) {
        const state = raised({ ...inductive, capacitance }, { voltage }, false);
        if (state.outcome !== OUTCOME.floats) continue;
        expect(state.voltageSlope).toBeGreaterThan(0);
        expect(state.voltage / voltage).toBeCloseTo(1, 7);
        if (state.gap > 0.01) jumped++;
      }
    }
    expect(jumped).toBeGreaterThan(10);
  });

  it('has no answer, and not the last step, where the drive leaps past its limit or has no value', () => {
    const broken = (slope: (gap: number) => number): GapCoupling => ({
      inductanceRe: 0,
      inductanceIm: 0,
      slopeRe: 0,
      slopeIm: 0,
      curvatureRe: 0,
      jerkRe: 0,
      evaluateLift: () => {},
      evaluate(gap) {
        coupling.evaluate(gap);
        const { inductanceRe, inductanceIm, slopeRe, slopeIm, curvatureRe, jerkRe } = coupling;
        Object.assign(this, { inductanceRe, inductanceIm, slopeRe, slopeIm, curvatureRe, jerkRe });
        Object.assign(this, { slopeRe: slopeRe * slope(gap) });
      },
    });
    const outcome = (slope: (gap: number) => number) => {
      const plate = broken(slope);
      const drive = new RisingDrive(plate);
      const limits = { voltage: 80, current: none, apparent: none };
      drive.rest(plate, inductive, limits, weight, standoff);
      return drive.raise(farthest, true);
    };
    expect(outcome(() => 1)).toBe(OUTCOME.floats);
    expect(outcome((gap) => (gap < 0.01 ? 1 : 0.2))).toBe(OUTCOME.unsettled);
    expect(outcome((gap) => (gap < 0.01 ? 1 : Number.NaN))).toBe(OUTCOME.unsettled);
  });

  it('rests where the jump at lift-off would break the current limit, and says that it would jump', () => {
    const tuned: Circuit = { ...inductive, resistance: 1.5, capacitance: 600e-6 };
    const loose = raised(tuned, { voltage: 200, current: 15 }, false);
    expect(loose.outcome).toBe(OUTCOME.floats);
    expect(loose.gap).toBeGreaterThan(0.03);
    const strict = raised(tuned, { voltage: 200, current: 9 }, false);
    expect(strict.outcome).toBe(OUTCOME.jumps);
    expect(strict.gap).toBe(standoff);
    expect(strict.limit).toBe(LIMIT.current);
  });
});
