import { describe, expect, it } from 'vitest';
import { type Design, evaluateRig, FOYER } from '../../support/design.ts';

const NONE = Number.NaN;

/** A coil of 20 to 100 mm, 20 mm high, 300 turns, 3 mm over a disc. */
function design(change: Design): Design {
  return {
    ...FOYER,
    floats: 2,
    'coil.wire': 1e-4,
    'coil.insulation.thickness': 1e-6,
    'coil.turns': 300,
    'coil.inner_radius': 0.02,
    'coil.section.outer_radius': 0.1,
    'coil.section.height': 0.02,
    'plate.layers.0.metal.temperature_coefficient': 0,
    'plate.layers.0.metal.resistivity': 6e-7,
    'plate.layers.0.metal.relative_permeability': 800,
    'plate.layers.0.thickness': 2e-3,
    'plate.at_temperature': 293.15,
    'plate.extra_mass': 0,
    standoff: 3e-3,
    'drive.current': 10,
    ...change,
  };
}

const ALUMINIUM: Design = { 'plate.layers.0.metal.resistivity': 3e-8, 'plate.layers.0.thickness': 1e-3 };
const added = (change: Design) => {
  const rig = evaluateRig(design(change));
  return { re: rig.inductance - rig.inductance_free, im: -rig.plate_resistance, force: rig.lift_force, rig };
};

describe('a magnetic disc', () => {
  it('is what the same sheets are on another basis, which vanishes at the rim as its square root', () => {
    // inductance, loss and force over those of a wide plate; test/fixtures/magnetic-disc.py, 24 profiles
    for (const [frequency, thickness, mu, rho, radius, ...expected] of OTHER_BASIS) {
      const change = {
        'supply.frequency': frequency,
        'plate.layers.0.thickness': thickness,
        'plate.layers.0.metal.relative_permeability': mu,
        'plate.layers.0.metal.resistivity': rho,
      };
      const wide = added({ ...change, 'plate.radius': NONE });
      const disc = added({ ...change, 'plate.radius': radius, 'plate.edge': 1 });
      const ratios = [disc.re / wide.re, disc.im / wide.im, disc.force / wide.force];
      ratios.forEach((ratio, i) => {
        expect(Math.abs(ratio / expected[i]! - 1), `${frequency} ${mu} ${radius}`).toBeLessThan(0.006);
      });
    }
  });

  it('shares its rim with the disc solver of other metals: aluminium as good as not magnetic', () => {
    // what a permeability of 1.1 itself does is taken out by the wide plates
    const plain = { ...ALUMINIUM, 'plate.layers.0.metal.relative_permeability': 1 };
    const magnetic = { ...ALUMINIUM, 'plate.layers.0.metal.relative_permeability': 1.1001 };
    for (const radius of [0.3, 0.15, 0.11, 0.08]) {
      const edge = { 'plate.radius': radius, 'plate.edge': 1 };
      const [disc, steel] = [added({ ...plain, ...edge }), added({ ...magnetic, ...edge })];
      const [wide, wideSteel] = [
        added({ ...plain, 'plate.radius': NONE }),
        added({ ...magnetic, 'plate.radius': NONE }),
      ];
      const size = Math.hypot(disc.re, disc.im);
      expect(Math.abs(steel.im / disc.im / (wideSteel.im / wide.im) - 1)).toBeLessThan(0.01);
      expect(Math.abs(steel.re - disc.re * (wideSteel.re / wide.re)) / size).toBeLessThan(0.01);
    }
  });

  it('is chosen for a single layer whose radius is given, and says so', () => {
    expect(added({ 'plate.radius': 0.15 }).rig.plate_model).toBe(1);
    expect(added({ 'plate.radius': 0.25 }).rig.plate_model).toBe(0);
    expect(added({ 'plate.radius': 0.15, 'plate.edge': 0 }).rig.plate_model).toBe(0);
    expect(added({ 'plate.radius': 0.15, 'plate.inner_radius': 0.01 }).rig.plate_model).toBe(0);
    expect(added({ 'plate.radius': 0.35, 'plate.edge': 1 }).rig.reason).not.toBe('none');
  });

  it('pulls less and heats less at its rim, and saturates', () => {
    const saturating = { 'plate.layers.0.metal.saturation': 1.5, 'plate.radius': 0.11, 'drive.current': 25 };
    const steel = added(saturating);
    const linear = added({ ...saturating, 'plate.layers.0.metal.saturation': NONE });
    expect(steel.rig.plate_model).toBe(1);
    expect(steel.rig.linear_loss_ratio).toBeCloseTo(linear.rig.plate_loss / steel.rig.plate_loss, 8);
    expect(steel.rig.linear_lift_ratio).toBeCloseTo(linear.force / steel.force, 8);
    expect(steel.rig.plate_flux_density).toBeLessThan(1.6);
  });

  it('has slopes that are those of its inductance', () => {
    const at = (gap: number) => added({ 'plate.radius': 0.12, standoff: gap });
    const step = 1e-6;
    const slope = (at(3e-3 + step).re - at(3e-3 - step).re) / (2 * step);
    expect((2 * at(3e-3).force) / 100 / slope).toBeCloseTo(1, 5);
  });
});

/** Frequency, thickness, permeability, resistivity, radius; inductance, loss, force over the wide plate's. */
const OTHER_BASIS = [
  [50, 2e-3, 800, 6e-7, 0.3, 0.9943, 0.9707, 0.9996],
  [50, 2e-3, 800, 6e-7, 0.15, 0.9287, 0.8463, 0.9963],
  [50, 2e-3, 800, 6e-7, 0.11, 0.7692, 0.6813, 0.937],
  [50, 2e-3, 100, 6e-7, 0.15, 0.969, 0.8739, 1.006],
  [50, 2e-3, 100, 6e-7, 0.11, 0.8448, 0.7236, 0.9804],
  [25e3, 2e-3, 200, 6e-7, 0.15, 0.9879, 1.0029, 1.0163],
  [25e3, 2e-3, 200, 6e-7, 0.11, 0.9356, 0.9698, 1.0404],
  [50, 4e-3, 300, 1.43e-7, 0.15, 0.946, 0.8834, 0.9991],
  [50, 4e-3, 300, 1.43e-7, 0.11, 0.7964, 0.7135, 0.9471],
] as const;
