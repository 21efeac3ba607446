import { describe, expect, it } from 'vitest';
import type { Task } from '../../src/model/study.ts';
import { createPlateHeatProfiles } from '../../src/rig/plate-heat-profile.ts';
import { type Design, evaluateRig, FOYER, slotsOf } from '../support/design.ts';

function profile(design: Design) {
  const task: Task = {
    rig: { slots: slotsOf(design), plateLayers: 1, windings: 0, texts: {} },
    vary: [],
    derive: [],
    limits: [],
    objectives: [],
  };
  const found = createPlateHeatProfiles(task)(new Float64Array(0))!;
  const { radii, density } = found;
  const step = radii[1]! - radii[0]!;
  const total = radii.reduce((sum, radius, i) => sum + 2 * Math.PI * radius * density[i]! * step, 0);
  return { ...found, total };
}

describe('where the heat falls', () => {
  it('adds up to the plate loss, in a wide plate and in a disc', () => {
    const wide = profile(FOYER);
    // some 1 % falls beyond 1.6 coil radii; 48 rings
    expect(wide.total / evaluateRig(FOYER).plate_loss).toBeGreaterThan(0.97);
    expect(wide.total / evaluateRig(FOYER).plate_loss).toBeLessThan(1.005);
    const small = { ...FOYER, 'plate.radius': 0.17, 'plate.extra_mass': 0 };
    expect(profile(small).total / evaluateRig(small).plate_loss).toBeCloseTo(1, 1);
  });

  it('is nothing on the axis and most under the winding', () => {
    const { radii, density } = profile(FOYER);
    const peak = radii[density.indexOf(Math.max(...density))]!;
    expect(peak).toBeGreaterThan(0.05);
    expect(peak).toBeLessThan(0.166);
    expect(density[0]!).toBeLessThan(0.02 * Math.max(...density));
    expect(Math.min(...density)).toBeGreaterThan(-0.01 * Math.max(...density));
  });

  it('agrees between the two models for a plate of twice the coil radius', () => {
    const disc = profile({ ...FOYER, 'plate.radius': 0.33, 'plate.extra_mass': 0 });
    const wide = profile({ ...FOYER, 'plate.radius': 0.333, 'plate.edge': 0, 'plate.extra_mass': 0 });
    const at = (of: typeof disc, radius: number) => {
      const i = of.radii.findIndex((r) => r > radius);
      const share = (radius - of.radii[i - 1]!) / (of.radii[i]! - of.radii[i - 1]!);
      return of.density[i - 1]! * (1 - share) + of.density[i]! * share;
    };
    const most = Math.max(...wide.density);
    // the wide plate's heat is taken where it enters, a skin depth from where it falls at most
    for (const radius of [0.06, 0.09, 0.12, 0.15]) {
      expect(Math.abs(at(disc, radius) - at(wide, radius)) / most).toBeLessThan(0.12);
    }
  });
});
