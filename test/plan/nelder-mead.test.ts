import 'fmin';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { descendSimplex } from '../../src/plan/nelder-mead.ts';

const search = { start: [0.3, 0.7], steps: [0.1, -0.1], value: 1e-9, position: 1e-9, iterations: 1000 };

/** Every place it was asked about. */
function trail(merit: (x: Float64Array) => number, changes: Partial<typeof search> = {}): number[][] {
  const asked: number[][] = [];
  descendSimplex(
    (x) => {
      asked.push([...x]);
      return merit(x);
    },
    { ...search, ...changes },
  );
  return asked;
}

/** Differs from any bowl: nothing near a place tells what it is worth. */
function noise(): (x: Float64Array) => number {
  const random = createRandom(1);
  return () => random.unit();
}

describe('simplex search', () => {
  it('begins with the start and the start moved by each step', () => {
    const asked = trail(() => 1);
    expect(asked.slice(0, 3).map((x) => x.map((c) => Number(c.toFixed(12))))).toEqual([
      [0.3, 0.7],
      [0.4, 0.7],
      [0.3, 0.6],
    ]);
  });

  it('closes in on the bottom of a bowl to the tolerance asked for, in any number of coordinates', () => {
    for (const n of [1, 2, 3, 5]) {
      let best = Number.POSITIVE_INFINITY;
      const bowl = (x: Float64Array) => {
        const value = x.reduce((sum, c, i) => sum + (i + 1) * (c - 0.5) ** 2, 0);
        best = Math.min(best, value);
        return value;
      };
      trail(bowl, { start: new Array(n).fill(0.2), steps: new Array(n).fill(0.1) });
      expect(best).toBeLessThan(1e-9);
    }
  });

  it('asks less the coarser the tolerance', () => {
    const bowl = (x: Float64Array) => (x[0]! - 0.5) ** 2 + (x[1]! - 0.5) ** 2;
    const coarse = trail(bowl, { value: 1e-3, position: 1e-2 }).length;
    expect(coarse).toBeLessThan(trail(bowl).length / 2);
  });

  it('ends where nothing helps, which the package by itself does not survive', () => {
    const { fmin } = globalThis as unknown as { fmin: { nelderMead(f: unknown, x: number[]): unknown } };
    const value = noise();
    expect(() => fmin.nelderMead(value, [1, 1])).toThrow(ReferenceError);
    expect(() => trail(noise())).not.toThrow();
  });

  it('takes walls of any height', () => {
    const distance = (x: ArrayLike<number>) => Math.hypot(x[0]! - 0.34, x[1]! - 0.5);
    const asked = trail((x) => (x[0]! < 0.35 ? distance(x) ** 2 : 1e200));
    expect(Math.min(...asked.map(distance))).toBeLessThan(1e-2);
  });
});
