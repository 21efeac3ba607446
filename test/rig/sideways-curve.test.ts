import { describe, expect, it } from 'vitest';
import { ALL_ON_REQUEST, Q } from '../../src/model/quantities.ts';
import { keepPlates } from '../../src/rig/kept-plates.ts';
import { atOwnDrive } from '../../src/rig/lift-curve.ts';
import { sidewaysCurve, sidewaysPoint } from '../../src/rig/sideways-curve.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';

const LAYOUT = { plateLayers: 1, windings: 0 };
const OVER_DISC: Design = { ...FOYER, 'plate.radius': 0.166, 'plate.extra_mass': 0 };

describe('the curve of what pushes a design outward', () => {
  it('holds at each shift what the design gives at that shift, to the last bit', () => {
    const curve = sidewaysCurve(LAYOUT, slotsOf(OVER_DISC));
    expect(curve.length).toBe(25);
    for (const { shift, overWeight } of curve.slice(1).filter((_, i) => i % 6 === 5)) {
      const there = slotsOf({ ...OVER_DISC, 'surroundings.sideways_shift': shift });
      const { results } = atOwnDrive(LAYOUT, there, [Q.sideways_force]);
      const weight = results[Q.fall_energy]! / results[Q.height]!;
      expect(overWeight).toBe(results[Q.sideways_force]! / weight);
    }
  });

  it('does not depend on which discs others have used', () => {
    const kept = keepPlates();
    const other = { ...OVER_DISC, 'coil.turns': 400 };
    atOwnDrive(LAYOUT, slotsOf(other), ALL_ON_REQUEST, kept);
    expect(sidewaysCurve(LAYOUT, slotsOf(other), kept)).toEqual(sidewaysCurve(LAYOUT, slotsOf(other)));
    expect(sidewaysCurve(LAYOUT, slotsOf(OVER_DISC), kept)).toEqual(
      sidewaysCurve(LAYOUT, slotsOf(OVER_DISC)),
    );
    expect(kept.sideways.size).toBeGreaterThan(0);
  });

  it('is looked at where the study says, else at a part of the radius', () => {
    const at = (design: Design) => {
      const slots = slotsOf(design);
      return sidewaysPoint(slots, atOwnDrive(LAYOUT, slots, [Q.sideways_force]).results);
    };
    const usual = at(OVER_DISC)!;
    expect(usual.shift).toBeGreaterThan(0);
    expect(at({ ...OVER_DISC, 'surroundings.sideways_shift': usual.shift })).toEqual(usual);
    const farther = { ...OVER_DISC, 'surroundings.sideways_shift': 2 * usual.shift };
    expect(at(farther)!.shift).toBe(2 * usual.shift);
    expect(at(farther)!.overWeight).not.toBe(usual.overWeight);
    expect(at(FOYER)).toBeNull();
  });

  it('is empty for a design that rests, one that has no answer, and one over a wide plate', () => {
    for (const design of [
      { ...OVER_DISC, 'drive.current': 2 },
      { ...OVER_DISC, 'coil.inner_radius': 0.5 },
      FOYER,
    ])
      expect(sidewaysCurve(LAYOUT, slotsOf(design))).toEqual([]);
  });
});
