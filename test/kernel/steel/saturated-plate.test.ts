import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Design, evaluateRig, FOYER } from '../../support/design.ts';

/** A coil over a thick plate that saturates, its surface impedance resolved over the radius, and the linear one; H, H/m. */
interface Case {
  readonly r1: number;
  readonly r2: number;
  readonly h: number;
  readonly turns: number;
  readonly gap: number;
  readonly current: number;
  readonly frequency: number;
  readonly mu: number;
  readonly js: number;
  readonly rho: number;
  readonly re: number;
  readonly im: number;
  readonly slope: number;
  readonly slopeIm: number;
  readonly field: number;
  readonly linearRe: number;
  readonly linearIm: number;
  readonly linearSlope: number;
}

/** Made by test/fixtures/saturated-plate.py. */
const CASES: readonly Case[] = JSON.parse(
  readFileSync(new URL('../../fixtures/saturated-plate.json', import.meta.url), 'utf8'),
);

function designOf(one: Case): Design {
  return {
    ...FOYER,
    floats: 2,
    'coil.wire': 1e-4,
    'coil.insulation.thickness': 1e-6,
    'coil.turns': one.turns,
    'coil.inner_radius': one.r1,
    'coil.section.outer_radius': one.r2,
    'coil.section.height': one.h,
    'plate.layers.0.metal.resistivity': one.rho,
    'plate.layers.0.metal.temperature_coefficient': 0,
    'plate.layers.0.metal.relative_permeability': one.mu,
    'plate.layers.0.metal.saturation': one.js,
    'plate.layers.0.thickness': Number.POSITIVE_INFINITY,
    'plate.at_temperature': 293.15,
    standoff: one.gap,
    'supply.frequency': one.frequency,
    'drive.current': one.current,
  };
}

describe('a saturating wide plate', () => {
  it('has the impedance and the force of one resolved over the radius', () => {
    for (const one of CASES) {
      const rig = evaluateRig(designOf(one));
      const omega = 2 * Math.PI * one.frequency;
      const size = Math.hypot(one.re, one.im);
      const added = rig.inductance - rig.inductance_free;
      const said = JSON.stringify(one);
      expect(Math.abs(added - one.re) / size, said).toBeLessThan(0.03);
      // loss
      expect(Math.abs(rig.plate_resistance / (-omega * one.im) - 1), said).toBeLessThan(0.02);
      const slope = (2 * rig.lift_force) / one.current ** 2;
      expect(Math.abs(slope - one.slope) / Math.hypot(one.slope, one.slopeIm), said).toBeLessThan(0.15);
    }
  });

  it('says how far the linear answer is off', () => {
    for (const one of CASES) {
      const rig = evaluateRig(designOf(one));
      expect(Math.abs(rig.linear_loss_ratio / (one.linearIm / one.im) - 1)).toBeLessThan(0.02);
    }
  });

  it('keeps its flux density below saturation and the air, where the linear one has many tesla', () => {
    const one = CASES[2]!;
    const linear = { ...designOf(one), 'plate.layers.0.metal.saturation': Number.NaN };
    expect(evaluateRig(linear).plate_flux_density).toBeGreaterThan(2);
    expect(evaluateRig(designOf(one)).plate_flux_density).toBeLessThan(1.5);
    expect(evaluateRig(linear).linear_loss_ratio).toBeNaN();
  });

  it('tends to the linear one at small currents', () => {
    const weak = { ...designOf(CASES[0]!), 'drive.current': 0.01 };
    const linear = evaluateRig({ ...weak, 'plate.layers.0.metal.saturation': Number.NaN });
    const rig = evaluateRig(weak);
    expect(rig.plate_loss / linear.plate_loss).toBeCloseTo(1, 5);
    expect(rig.inductance / linear.inductance).toBeCloseTo(1, 6);
    expect(rig.linear_lift_ratio).toBeCloseTo(1, 5);
  });

  it('agrees with its drive: the same point from a current and from the voltage that it needs', () => {
    const rig = evaluateRig(designOf(CASES[2]!));
    const { 'drive.current': _, ...undriven } = designOf(CASES[2]!);
    const driven = { ...undriven, 'drive.voltage': rig.voltage, 'supply.series_resistance': 0 };
    const same = evaluateRig(driven);
    expect(same.current / rig.current).toBeCloseTo(1, 5);
    expect(same.plate_loss / rig.plate_loss).toBeCloseTo(1, 5);
  });

  it('moves smoothly with the current', () => {
    const step = 1e-4;
    for (let current = 1; current < 100; current *= 1.1) {
      const at = (c: number) =>
        Math.log(evaluateRig({ ...designOf(CASES[3]!), 'drive.current': c }).plate_loss);
      const [low, here, high] = [at(current), at(current * (1 + step)), at(current * (1 + 2 * step))];
      // ln P over ln I is between 1 and 3
      expect((high - low) / (2 * step)).toBeGreaterThan(1);
      expect((high - low) / (2 * step)).toBeLessThan(3);
      expect(Math.abs(high - 2 * here + low)).toBeLessThan(1e-5);
    }
  });

  it('may lie below another layer, or above it', () => {
    const steel = designOf(CASES[0]!);
    const layer = (from: 0 | 1, to: 0 | 1, design: Design) =>
      Object.fromEntries(
        Object.entries(design)
          .filter(([path]) => path.startsWith(`plate.layers.${from}`))
          .map(([path, value]) => [path.replace(`layers.${from}`, `layers.${to}`), value]),
      );
    const below = {
      ...steel,
      ...layer(0, 1, steel),
      ...layer(0, 0, FOYER),
      'plate.layers.0.thickness': 0.5e-3,
    };
    const rig = evaluateRig(below);
    const linear = evaluateRig({ ...below, 'plate.layers.1.metal.saturation': Number.NaN });
    expect(rig.status).toBe('clamped');
    expect(rig.plate_permeability).toBeGreaterThan(1);
    expect(rig.plate_permeability).toBeLessThan(800);
    expect(rig.linear_loss_ratio).toBeCloseTo(linear.plate_loss / rig.plate_loss, 10);
  });
});
