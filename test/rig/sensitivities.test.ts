import { describe, expect, it } from 'vitest';
import { inputByPath, SLOT } from '../../src/model/inputs.ts';
import type { Program } from '../../src/model/program.ts';
import { Q, type QuantityName } from '../../src/model/quantities.ts';
import type { Task } from '../../src/model/study.ts';
import { createSensitivities, type Sensitivity, sensitivityOf } from '../../src/rig/sensitivities.ts';
import { type Design, evaluateRig, FOYER, SOCKET, slotsOf } from '../support/design.ts';

/** Of one rig: what a little more of the input at a path changes about a quantity. */
function sensitivities(design: Design, names: readonly QuantityName[]) {
  const rig = { slots: slotsOf(design), plateLayers: 1, windings: 0, texts: {} };
  const task: Task = { rig, vary: [], derive: [], limits: [], objectives: [] };
  const programs = names.map((name): Program => [{ op: 'quantity', index: Q[name] }]);
  const found = createSensitivities(task, programs)(new Float64Array(0));
  const of = (name: QuantityName, path: string): Sensitivity | null => {
    const m = found!.moved.findIndex((one) => one.path === path);
    if (m < 0) throw new Error(`${path} was not moved`);
    return sensitivityOf(found!, names.indexOf(name), m);
  };
  const slope = (name: QuantityName, path: string): number => {
    const one = of(name, path);
    if (one?.kind !== 'slope') throw new Error(`no slope: ${JSON.stringify(one)}`);
    return one.more;
  };
  return { found, of, slope };
}

const without = (design: Design, ...paths: readonly string[]): Design =>
  Object.fromEntries(Object.entries(design).filter(([path]) => !paths.includes(path)));

describe('sensitivities of a rig', () => {
  it('are those of laws that can be written down', () => {
    const { slope } = sensitivities(FOYER, ['coil_mass', 'resistance_cold', 'gap', 'height', 'wire_length']);
    const own = evaluateRig(FOYER);
    // conductor alone: length x area x density
    const conductor = own.wire_length * (Math.PI / 4) * 4e-6 * 2703;
    expect(slope('coil_mass', 'coil.metal.density') / (0.01 * conductor)).toBeCloseTo(1, 9);
    expect(slope('coil_mass', 'coil.extra_mass') / (0.01 * 0.15)).toBeCloseTo(1, 9);
    expect(slope('resistance_cold', 'coil.metal.resistivity') / (0.01 * own.resistance_cold)).toBeCloseTo(
      1,
      9,
    );
    // 1 / d^2 of the area and 2 pi (inner radius + half the width) of the length, by ± 1 %: 1e-4 of curvature
    const width = 55 * 2.112e-3;
    const lengthened = (0.5 * 55 * 2e-3) / (0.05 + width / 2);
    expect(slope('resistance_cold', 'coil.wire') / (0.01 * own.resistance_cold)).toBeCloseTo(
      lengthened - 2,
      2,
    );
    // a wider standoff raises the coil and leaves its gap, which is known to 1e-7 between stations that begin at the standoff
    expect(Math.abs(slope('gap', 'standoff'))).toBeLessThan(1e-8 * own.gap);
    expect(slope('height', 'standoff') / (-0.01 * 2e-3)).toBeCloseTo(1, 5);
  });

  it('are central differences of the rig evaluated anew', () => {
    const { slope } = sensitivities(FOYER, ['height', 'liftoff_current']);
    for (const path of ['drive.current', 'plate.layers.0.metal.resistivity', 'supply.frequency']) {
      const at = FOYER[path]!;
      const [below, above] = [0.99 * at, 1.01 * at].map((value) => evaluateRig({ ...FOYER, [path]: value }));
      for (const name of ['height', 'liftoff_current'] as const) {
        expect(slope(name, path)).toBeCloseTo((above![name] - below![name]) / 2, 12);
      }
    }
    expect(slope('liftoff_current', 'drive.current')).toBe(0);
  });

  it('move turns by one in each layer, and tell it by the per cent', () => {
    const { found, slope } = sensitivities(FOYER, ['coil_mass']);
    const turns = found!.moved.find(({ slot }) => slot === SLOT.turns)!;
    expect([turns.down, turns.up]).toEqual([432, 448]);
    const [below, above] = [432, 448].map(
      (value) => evaluateRig({ ...FOYER, 'coil.turns': value }).coil_mass,
    );
    expect(slope('coil_mass', 'coil.turns')).toBeCloseTo(((above! - below!) / 16) * 4.4, 12);
  });

  it('follow what follows: a winding without a temperature of its own has that of the room, by the kelvin', () => {
    const free = without(FOYER, 'coil.at_temperature', 'plate.at_temperature');
    const { found, slope } = sensitivities(free, ['resistance']);
    expect(found!.moved.find(({ slot }) => slot === SLOT.surroundings)!.perCent).toBe(false);
    const [below, above] = [294.15, 296.15].map(
      (at) =>
        evaluateRig({
          ...FOYER,
          'surroundings.temperature': at,
          'coil.at_temperature': at,
          'plate.at_temperature': at,
        }).resistance,
    );
    expect(slope('resistance', 'surroundings.temperature')).toBeCloseTo((above! - below!) / 2, 12);
  });

  it('are a step where up and down do not agree: two limits of a supply hold the drive at once', () => {
    const held = { ...without({ ...FOYER, ...SOCKET }, 'drive.current'), 'supply.fuse.side': 0 };
    const { of } = sensitivities(held, ['current']);
    for (const path of ['supply.max_current', 'supply.fuse.rating']) {
      const found = of('current', path);
      expect(found?.kind).toBe('step');
      if (found?.kind === 'step') {
        expect(found.up).toBe(0);
        expect(found.down).toBeCloseTo(-0.16, 6);
      }
    }
  });

  it('come from one side where on the other the rig no longer floats', () => {
    const { liftoff_current: liftoff } = evaluateRig(FOYER);
    const brink = { ...FOYER, 'drive.current': 1.002 * liftoff };
    const { found, slope } = sensitivities(brink, ['height']);
    const m = found!.moved.findIndex(({ path }) => path === 'drive.current');
    expect(found!.below[0]![m]).toBeNaN();
    const higher = evaluateRig({ ...brink, 'drive.current': 1.01 * 1.002 * liftoff }).height;
    expect(slope('height', 'drive.current')).toBeCloseTo(higher - evaluateRig(brink).height, 12);
  });

  it('leave out what stands for a word, what is few and whole, and what is not there', () => {
    const paths = sensitivities({ ...FOYER, ...SOCKET }, ['height']).found!.moved.map(({ path }) => path);
    for (const path of ['floats', 'supply.fuse.kind', 'coil.layers', 'coil.strands', 'plate.extra_mass']) {
      expect(inputByPath(path)).toBeDefined();
      expect(paths).not.toContain(path);
    }
    // of a metal that is not magnetic
    expect(paths.filter((path) => path.includes('permeability'))).toEqual([]);
  });

  it('are none of a rig without an answer', () => {
    expect(sensitivities({ ...FOYER, 'coil.inner_radius': 1e-3 }, ['height']).found).toBeNull();
  });
});
