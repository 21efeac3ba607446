import { describe, expect, it } from 'vitest';
import { raisedOf } from '../../src/model/cautions/judge.ts';
import { FLOATS } from '../../src/model/inputs.ts';
import { ALL_ON_REQUEST, Q, QUANTITIES, type QuantityName } from '../../src/model/quantities.ts';
import { STATUS } from '../../src/model/status.ts';
import { UNITS } from '../../src/model/units.ts';
import { cautionsOf } from '../../src/rig/cautions-of.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { atOwnDrive } from '../../src/rig/lift-curve.ts';
import { BENCHMARK } from '../support/benchmark.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';

const plate = 'plate.layers.0';

/** The foyer coil over a disc of its own radius. */
const OVER_DISC: Design = { ...FOYER, 'plate.radius': 0.166, 'plate.extra_mass': 0 };

function asker(layers = 1, windings = 0) {
  const laws = createLaws(layers, windings, ALL_ON_REQUEST);
  return (design: Design) => {
    laws.evaluate(slotsOf(design));
    const results = laws.results.slice();
    return { status: laws.status, of: (name: QuantityName) => results[Q[name]]! };
  };
}

const evaluateRig = asker();

describe('a coil that floats over a disc of its own size', () => {
  const rig = evaluateRig(OVER_DISC);

  it('is pushed off, the harder the farther', () => {
    expect(rig.status).toBe(STATUS.lifts);
    expect(rig.of('sideways_stiffness')).toBeLessThan(0);
    const shift = 0.1 * rig.of('coil_outer_radius');
    // nearly in proportion up to a tenth of the radius
    expect(rig.of('sideways_force') / (-rig.of('sideways_stiffness') * shift)).toBeCloseTo(1, 1);
    const far = evaluateRig({ ...OVER_DISC, 'surroundings.sideways_shift': 0.04 });
    expect(far.of('sideways_force')).toBeGreaterThan(rig.of('sideways_force'));
    expect(far.of('sideways_stiffness')).toBe(rig.of('sideways_stiffness'));
  });

  it('leans back by itself, and slides off the faster for being free to lean', () => {
    expect(rig.of('tilt_stiffness')).toBeGreaterThan(0);
    expect(rig.of('centring_stiffness')).toBeLessThan(rig.of('sideways_stiffness'));
  });

  it('leaves to its posts the force at the end of their play', () => {
    expect(rig.of('post_force')).toBeNaN();
    const held = evaluateRig({ ...OVER_DISC, 'guides.play': 2e-3 });
    const at = evaluateRig({ ...OVER_DISC, 'surroundings.sideways_shift': 2e-3 });
    expect(held.of('post_force')).toBeCloseTo(at.of('sideways_force'), 12);
    expect(held.of('post_force')).toBeGreaterThan(0);
  });

  it('does not depend on what was asked before', () => {
    const other = asker();
    other({ ...OVER_DISC, 'plate.radius': 0.12 });
    other({ ...OVER_DISC, standoff: 6e-3, 'drive.current': 14, 'surroundings.sideways_shift': 0.08 });
    const again = other(OVER_DISC);
    for (const index of ALL_ON_REQUEST) {
      const { name } = QUANTITIES[index]!;
      expect(again.of(name as QuantityName)).toBe(rig.of(name as QuantityName));
    }
  });
});

describe('a plate without an edge', () => {
  it('pushes nowhere, and turns a coil back that leans', () => {
    const wide = evaluateRig(FOYER);
    expect([wide.of('sideways_force'), wide.of('sideways_stiffness'), wide.of('centring_stiffness')]).toEqual(
      [0, 0, 0],
    );
    const disc = evaluateRig({ ...OVER_DISC, 'plate.radius': 0.45 });
    // the rim is 0.28 m beyond the coil
    expect(wide.of('tilt_stiffness') / disc.of('tilt_stiffness')).toBeCloseTo(1, 1);
    expect(Math.abs(disc.of('sideways_force'))).toBeLessThan(1e-3);
  });
});

describe('where the answer is not known', () => {
  it('the cells are empty: a small magnetic plate, an oblong one, a coil that rests', () => {
    const iron = evaluateRig({
      ...OVER_DISC,
      [`${plate}.metal.relative_permeability`]: 200,
      'plate.edge': 0,
      floats: FLOATS.nothing,
    });
    const oblong = evaluateRig({
      ...FOYER,
      'plate.sides.0': 0.4,
      'plate.sides.1': 0.3,
      'plate.extra_mass': 0,
    });
    const rests = evaluateRig({ ...OVER_DISC, 'drive.current': 3 });
    expect(rests.status).toBe(STATUS.rests);
    for (const rig of [iron, oblong, rests]) {
      for (const name of ['sideways_force', 'sideways_stiffness', 'tilt_stiffness'] as const) {
        expect(rig.of(name)).toBeNaN();
      }
    }
    const square = evaluateRig({ ...FOYER, 'plate.square': 0.3, 'plate.extra_mass': 0 });
    expect(square.of('sideways_force')).toBeGreaterThan(0);
  });

  it('a clamped plate is pushed sideways, but does not lean', () => {
    const clamped = evaluateRig({ ...OVER_DISC, floats: FLOATS.nothing });
    expect(clamped.of('sideways_force')).toBeGreaterThan(0);
    expect(clamped.of('tilt_stiffness')).toBeNaN();
  });
});

describe('the published levitation benchmark', () => {
  const computeTwo = asker(1, 2);
  const rig = computeTwo(BENCHMARK);

  it('has an outer winding that centres its disc with 0.016 N/mm, a tenth of its weight at a tenth of its radius', () => {
    expect(rig.of('sideways_stiffness') / UNITS.N_per_mm.scale).toBeGreaterThan(0);
    expect(rig.of('sideways_stiffness') * UNITS.N_per_mm.scale).toBeCloseTo(0.016, 3);
    const pushed = computeTwo({ ...BENCHMARK, 'surroundings.sideways_shift': 0.0065 });
    expect(pushed.of('sideways_force') / (0.107 * 9.80665)).toBeCloseTo(-0.098, 2);
    expect(rig.of('tilt_stiffness')).toBeGreaterThan(0);
  });

  it('would push it off without that winding, or with one wound with the other', () => {
    const alone = { ...BENCHMARK, 'coil.windings.1.turns': 1 };
    expect(computeTwo(alone).of('sideways_stiffness')).toBeLessThan(0);
    expect(computeTwo({ ...BENCHMARK, 'coil.windings.1.sense': 1 }).of('sideways_stiffness')).toBeLessThan(0);
  });

  it('gets no caution about guidance where it is computed to centre itself, and one where it is pushed off', () => {
    const raised = (design: Design, requested: readonly number[]) => {
      const layout = { plateLayers: 1, windings: 2 };
      const slots = slotsOf(design);
      const found = raisedOf(cautionsOf(layout, slots, atOwnDrive(layout, slots, requested).results));
      return found.map(({ rule }) => rule.id).filter((id) => /guidance|pushed/.test(id));
    };
    // a winding nearer the plate's rim, at more current: see studies/self-centring.yaml
    const centred: Design = {
      ...BENCHMARK,
      'coil.windings.1.inner_radius': 0.065,
      'coil.windings.1.section.outer_radius': 0.08,
      'drive.current': 17,
    };
    expect(raised(centred, ALL_ON_REQUEST)).toEqual([]);
    expect(raised(centred, [])).toEqual(['no-guidance']);
    expect(raised({ ...centred, 'coil.windings.1.sense': 1 }, ALL_ON_REQUEST)).toEqual(['pushed-off']);
  });

  it('leaves its disc on the brink where it is free to lean: less than a fifth of what holds it level', () => {
    expect(Math.abs(rig.of('centring_stiffness'))).toBeLessThan(0.2 * rig.of('sideways_stiffness'));
  });
});
