import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { createSobol, SOBOL_DIMENSIONS } from '../../src/math/sobol.ts';
import reference from '../fixtures/sobol-reference.json' with { type: 'json' };

function points(dimensions: number, count: number, seed: number | null): number[][] {
  const sobol = createSobol(dimensions, seed === null ? null : createRandom(seed));
  const into = new Float64Array(dimensions);
  return Array.from({ length: count }, () => {
    sobol.next(into);
    return [...into];
  });
}

/** How many distinct cells of a grid of `slices` a axis the points fall into. */
function cells(all: readonly number[][], slices: readonly number[]): number {
  return new Set(all.map((point) => slices.map((n, d) => Math.floor(point[d]! * n)).join())).size;
}

describe("Sobol' points", () => {
  it('are the published ones in two dimensions', () => {
    // the first ten of new-joe-kuo-6 in two dimensions, origin left out, as widely printed
    expect(points(2, 11, null).slice(1)).toEqual([
      [0.5, 0.5],
      [0.75, 0.25],
      [0.25, 0.75],
      [0.375, 0.375],
      [0.875, 0.875],
      [0.625, 0.125],
      [0.125, 0.625],
      [0.1875, 0.3125],
      [0.6875, 0.8125],
      [0.9375, 0.0625],
    ]);
  });

  it('agree with SciPy in all 32 dimensions', () => {
    // test/fixtures/sobol-reference.py
    expect(SOBOL_DIMENSIONS).toBe(32);
    expect(points(32, 64, null).map((point) => point.map((x) => x * 2 ** 32))).toEqual(reference);
  });

  it('put one point of every aligned block of 2^k into each of 2^k slices of every axis, scrambled or not', () => {
    const seeds = fc.option(fc.integer({ min: 0, max: 2 ** 31 }));
    fc.assert(
      fc.property(seeds, fc.integer({ min: 1, max: SOBOL_DIMENSIONS }), (seed, dimensions) => {
        const all = points(dimensions, 128, seed);
        for (const size of [8, 64]) {
          for (let first = 0; first < all.length; first += size) {
            const block = all.slice(first, first + size);
            for (let d = 0; d < dimensions; d++) {
              expect(new Set(block.map((point) => Math.floor(point[d]! * size))).size).toBe(size);
            }
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  it('fill every elementary rectangle of their first two axes once, scrambled or not', () => {
    for (const seed of [null, 1, 2, 3]) {
      const all = points(2, 64, seed);
      for (let i = 0; i <= 6; i++) expect(cells(all, [2 ** i, 2 ** (6 - i)])).toBe(64);
    }
  });

  it('are the same for the same seed, others for another, and no longer on the lattice', () => {
    expect(points(3, 10, 4)).toEqual(points(3, 10, 4));
    expect(points(3, 10, 4)).not.toEqual(points(3, 10, 5));
    const coarse = points(5, 16, 4).flat();
    expect(coarse.filter((x) => Number.isInteger(x * 16))).toEqual([]);
  });

  it('are spread over the unit interval whatever their index, over the seeds', () => {
    const first = Array.from({ length: 400 }, (_, seed) => points(2, 1, seed)[0]![1]!);
    const mean = first.reduce((sum, x) => sum + x, 0) / first.length;
    // four standard deviations of the mean of 400 uniform numbers
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 / Math.sqrt(12 * 400));
  });

  it('integrate a smooth function far better than random points would', () => {
    const n = 4096;
    const product = (point: number[]) => point.reduce((value, x) => value * (1 + (x - 0.5) / 2), 1);
    const mean = points(6, n, 9).reduce((sum, point) => sum + product(point), 0) / n;
    // independent points would be off by 0.0057 (standard deviation 0.36 over the root of 4096)
    expect(Math.abs(mean - 1)).toBeLessThan(1e-4);
  });

  it('refuse dimensions that they have no numbers for', () => {
    expect(() => createSobol(0, null)).toThrow(RangeError);
    expect(() => createSobol(33, null)).toThrow('1 to 32');
  });
});
