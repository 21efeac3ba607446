import { describe, expect, it } from 'vitest';
import type { PlateStack } from '../../src/kernel/plate-reflection.ts';
import { createRandom } from '../../src/math/random.ts';
import type { Coil } from '../../src/rig/coil.ts';
import { WidePlate } from '../../src/rig/wide-plate.ts';
import { coilOf } from '../support/wide-plate.ts';

const RIGS = 2000;

interface Asked {
  readonly coil: Coil;
  readonly plate: PlateStack;
  readonly standoff: number;
  /** Above the standoff, up to two outer radii. */
  readonly gap: number;
  readonly layers: number;
  readonly resistance: number;
}

/** Coils from 5 mm on over thin and thick plates of good and poor metals, 10 Hz to 100 kHz. */
function askedRig(number: number): Asked {
  const random = createRandom(4, number, 1);
  const logarithmic = (from: number, to: number) => from * (to / from) ** random.unit();
  const innerRadius = logarithmic(5e-3, 0.5);
  const outerRadius = innerRadius * (1 + logarithmic(0.05, 3));
  const height = innerRadius * logarithmic(0.03, 2);
  const standoff = logarithmic(0.3e-3, 0.03);
  const omega = 2 * Math.PI * logarithmic(10, 1e5);
  const layer = {
    resistivity: logarithmic(1.6e-8, 2e-6),
    relativePermeability: 1,
    thickness: logarithmic(3e-4, 3e-2),
  };
  return {
    coil: coilOf([{ innerRadius, outerRadius, height, turns: 100, offset: 0, sense: 1 }]),
    plate: { layers: [layer], layerCount: 1, omega },
    standoff,
    gap: standoff + Math.max(0.3 * standoff, 2 * outerRadius - standoff) * random.unit() ** 2,
    layers: 2 + random.below(12),
    // of the order of the reactance of a hundred turns, or less
    resistance: omega * outerRadius * 1e-6 * 1e4 * logarithmic(1e-3, 3),
  };
}

function prepared({ coil, plate, standoff }: Asked): WidePlate {
  const wide = new WidePlate();
  wide.prepare(coil, plate, standoff, Math.max(1.5 * standoff, 2.5 * coil.outerRadius));
  return wide;
}

const off = (value: number, exact: number) => Math.abs(value / exact - 1);

describe('GapStations', () => {
  it('holds dL and both slopes to 3e-7 of the sums, the curvature to 1e-6', () => {
    let most = 0;
    let mostCurvature = 0;
    let enclosed = 0;
    for (let i = 0; i < RIGS; i++) {
      const rig = askedRig(i);
      const { stations, coupling } = prepared(rig);
      if (stations.place(rig.gap)) enclosed++;
      stations.evaluate(rig.gap);
      coupling.evaluate(rig.gap);
      for (const name of ['inductanceRe', 'inductanceIm', 'slopeRe', 'slopeIm'] as const) {
        most = Math.max(most, off(stations[name], coupling[name]));
      }
      mostCurvature = Math.max(mostCurvature, off(stations.curvatureRe, coupling.curvatureRe));
    }
    expect(most).toBeLessThan(3e-7);
    expect(mostCurvature).toBeLessThan(1e-6);
    // the others float beyond the last station, where the sums are taken
    expect(enclosed).toBeGreaterThan(0.95 * RIGS);
  });

  it('finds the gap at which the slope meets a target', () => {
    for (let i = 0; i < 300; i++) {
      const rig = askedRig(i);
      const { stations, coupling } = prepared(rig);
      coupling.evaluate(rig.gap);
      const target = coupling.slopeRe;
      if (!stations.place(rig.gap)) continue;
      // 3e-7 of the slope, which falls with some power of the gap
      expect(off(stations.gapOf(target), rig.gap)).toBeLessThan(1e-6);
      stations.evaluateLift(stations.gapOf(target));
      // where stations and their quintics meet the target, they meet it to rounding
      expect(off(stations.slopeRe, target)).toBeLessThan(1e-11);
    }
  });

  it('is the sums themselves at a station, and passes smoothly from one side to the other', () => {
    const { stations, coupling } = prepared(askedRig(7));
    for (let station = 1; station < 6; station++) {
      const gap = stations.gapAt(station);
      coupling.evaluate(gap);
      for (const side of [1 - 1e-12, 1 + 1e-12]) {
        stations.evaluate(gap * side);
        for (const name of [
          'inductanceRe',
          'inductanceIm',
          'slopeRe',
          'slopeIm',
          'curvatureRe',
          'jerkRe',
        ] as const) {
          // 1e-12 of the gap away, and some rounding of the logarithm's second derivative
          expect(off(stations[name], coupling[name])).toBeLessThan(1e-9);
        }
      }
    }
  });

  it('has the same values whatever was asked before', () => {
    const rig = askedRig(3);
    const gaps = Array.from({ length: 40 }, (_, i) => rig.standoff * 1.06 ** (i + 1));
    const ask = ({ stations }: WidePlate, gap: number) => {
      stations.evaluate(gap);
      const { inductanceRe, inductanceIm, slopeRe, slopeIm, curvatureRe, jerkRe } = stations;
      return [inductanceRe, inductanceIm, slopeRe, slopeIm, curvatureRe, jerkRe, stations.gapOf(slopeRe)];
    };
    const upward = prepared(rig);
    const rising = gaps.map((gap) => ask(upward, gap));
    const downward = prepared(rig);
    const falling = [...gaps].reverse().map((gap) => ask(downward, gap));
    expect(falling.reverse()).toEqual(rising);
    gaps.forEach((gap, i) => {
      expect(ask(prepared(rig), gap)).toEqual(rising[i]);
    });
  });

  it('leaves gaps at and below the standoff, and beyond its stations, to the sums', () => {
    const rig = askedRig(5);
    const { stations, coupling } = prepared(rig);
    for (const gap of [0.5 * rig.standoff, rig.standoff, 10 * rig.coil.outerRadius]) {
      stations.evaluate(gap);
      coupling.evaluate(gap);
      expect(stations.inductanceRe).toBe(coupling.inductanceRe);
      expect(stations.jerkRe).toBe(coupling.jerkRe);
    }
    expect(stations.gapOf(1e-3 * coupling.slopeRe)).toBeNaN();
  });
});

describe('what is interpolated along dL', () => {
  it('holds the field in the winding and the voltages of its layers as well as both are known', () => {
    const fields: number[] = [];
    const voltages: number[] = [];
    for (let i = 0; i < RIGS; i++) {
      const rig = askedRig(i);
      const { coil, gap, layers, resistance, plate } = rig;
      const { section } = coil.windings[0]!;
      const wide = prepared(rig);
      fields.push(
        off(wide.meanSquareField(coil, section, gap), wide.exactMeanSquareField(coil, section, gap)),
      );
      // a gap of its own as standoff has no stations below it
      const exact = new WidePlate();
      exact.prepare(coil, plate, gap, Math.max(1.5 * gap, 2.5 * coil.outerRadius));
      const asked = [section, layers, gap, resistance, plate.omega] as const;
      voltages.push(off(wide.layerUnevenness(...asked), exact.layerUnevenness(...asked)));
    }
    const most = (errors: number[], share: number) =>
      errors.sort((a, b) => a - b)[Math.ceil(share * RIGS) - 1]!;
    // the field over a plate is known to 0.4 % in half of the rigs and to 1.5 % in nine in ten
    expect([most(fields, 0.5) < 1e-4, most(fields, 0.9) < 7e-4, most(fields, 1) < 4e-3]).toEqual([
      true,
      true,
      true,
    ]);
    // voltages to 1e-3
    expect([most(voltages, 0.99) < 1e-3, most(voltages, 1) < 3e-3]).toEqual([true, true]);
  });
});
