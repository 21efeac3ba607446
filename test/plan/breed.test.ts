import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { breed, mutateOne } from '../../src/plan/breed.ts';
import { createSpace, toDesign } from '../../src/plan/space.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

const space = createSpace([
  variedChoice('metal', 3),
  variedNumber('wire', [1, 2, 4, 8]),
  variedRange('turns', 10, 20, { integer: true }),
  variedRange('gap', 0.5, 5, { spacing: 'log' }),
]);
const points = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });

function designAt(point: readonly number[]): Float64Array {
  const design = new Float64Array(4);
  toDesign(space, point, design);
  return design;
}

function expectWithin([metal, wire, turns, gap]: ArrayLike<number> & Iterable<number>): void {
  expect([0, 1, 2]).toContain(metal);
  expect([1, 2, 4, 8]).toContain(wire);
  expect(Number.isInteger(turns) && turns! >= 10 && turns! <= 20).toBe(true);
  expect(gap! >= 0.5 && gap! <= 5).toBe(true);
}

describe('breeding', () => {
  it('stays within what varies, whoever the parents are', () => {
    fc.assert(
      fc.property(points, points, fc.nat(1e6), (a, b, seed) => {
        const random = createRandom(seed);
        for (const child of breed(space, designAt(a), designAt(b), random)) expectWithin(child);
      }),
    );
  });

  it('leaves the parents as they are', () => {
    const [a, b] = [designAt([0, 0, 0, 0]), designAt([1, 1, 1, 1])];
    breed(space, a, b, createRandom(1));
    expect([[...a], [...b]]).toEqual([
      [0, 1, 10, 0.5],
      [2, 8, 20, 5],
    ]);
  });

  it('keeps children of alike parents near them, and lets them differ', () => {
    const parent = designAt([0.5, 0.5, 0.5, 0.5]);
    const children = Array.from({ length: 500 }, (_, seed) =>
      breed(space, parent, parent, createRandom(seed)),
    ).flat();
    const same = children.filter((child) => child.join() === parent.join()).length;
    // a mutation an axis with probability 1/4: (3/4)^4 = 0.32 of a thousand stay, give or take 15
    expect(Math.abs(same - 316)).toBeLessThan(75);
  });

  it('always moves a mutated number of a list or a whole one to another, and a choice to any other', () => {
    const seen = new Set<string>();
    for (let seed = 0; seed < 2000; seed++) {
      const parent = designAt([0.5, 0.9, 0.05, 0.5]);
      const child = mutateOne(space, parent, createRandom(seed));
      expectWithin(child);
      const changed = [...child.keys()].filter((i) => child[i] !== parent[i]);
      expect(changed).toHaveLength(1);
      seen.add(`${changed[0]}:${child[changed[0]!]}`);
    }
    // from the end of an axis there is only one way
    expect([...seen].filter((one) => /^[012]:/.test(one)).sort()).toEqual(
      expect.arrayContaining(['0:0', '0:2', '1:4', '2:11']),
    );
    expect(seen.has('1:8') || seen.has('2:10') || seen.has('0:1')).toBe(false);
  });
});
