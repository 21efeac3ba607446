import { describe, expect, it } from 'vitest';
import { compileLimit } from '../../src/expression/compile.ts';
import type { Derived } from '../../src/model/program.ts';
import { Q, QUANTITIES } from '../../src/model/quantities.ts';
import { UNITS } from '../../src/model/units.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { neededLaws, readQuantities } from '../../src/rig/needed-laws.ts';
import { FOYER, SOCKET, slotsOf } from '../support/design.ts';
import { usualRig } from '../support/random-rig.ts';

const ALWAYS = QUANTITIES.filter(({ effort }) => effort === 0).map(({ index }) => index);

describe('neededLaws', () => {
  it('leaves no law out that a quantity comes from, to the last bit', () => {
    const count = (rig: object, pattern: RegExp) =>
      Object.keys(rig).filter((path) => pattern.test(path)).length;
    const rigs = [{ ...FOYER, ...SOCKET }, ...Array.from({ length: 15 }, (_, i) => usualRig(5, i))];
    for (const rig of rigs) {
      const layers = count(rig, /^plate\.layers\.\d\.thickness$/);
      const windings = count(rig, /^coil\.windings\.\d\.turns$/);
      const whole = createLaws(layers, windings);
      whole.evaluate(slotsOf(rig));
      // quantities that need the same laws are looked at together
      const groups = new Map<string, number[]>();
      for (const index of ALWAYS) {
        const key = JSON.stringify(neededLaws(new Set([index])));
        groups.set(key, [...(groups.get(key) ?? []), index]);
      }
      expect(groups.size).toBe(6);
      for (const indices of groups.values()) {
        const part = createLaws(layers, windings, [], neededLaws(new Set(indices)));
        part.evaluate(slotsOf(rig));
        expect(part.status).toBe(whole.status);
        expect(indices.map((index) => part.results[index])).toEqual(
          indices.map((index) => whole.results[index]),
        );
      }
    }
  });

  it('leaves out what is not read', () => {
    const laws = createLaws(1, 0, [], neededLaws(new Set([Q.height])));
    laws.evaluate(slotsOf({ ...FOYER, ...SOCKET }));
    expect(laws.results[Q.height]).toBeGreaterThan(0);
    expect(laws.results[Q.coil_temperature]).toBeNaN();
  });
});

describe('readQuantities', () => {
  it('follows derived quantities and their quantiles', () => {
    const derive: Derived[] = [
      {
        name: 'press',
        column: '',
        text: '',
        unit: UNITS.one,
        program: [{ op: 'quantity', index: Q.lift_force }],
      },
      {
        name: 'height_p05',
        column: '',
        text: '',
        unit: UNITS.one,
        program: [],
        statistic: { kind: 'quantile', fraction: 0.05, quantity: Q.height },
      },
    ];
    const limit = compileLimit('voltage <= 100 V', []);
    if (!limit.ok) throw new Error(limit.flaw.found);
    const programs = [
      limit.value.left,
      [{ op: 'derived', index: 0 } as const],
      [{ op: 'derived', index: 1 } as const],
    ];
    expect([...readQuantities(programs, derive)].sort()).toEqual([Q.voltage, Q.lift_force, Q.height].sort());
  });
});
