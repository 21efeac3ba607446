import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extremeRows, kneeRow } from '../../src/front/landmarks.ts';

describe('extremeRows', () => {
  it('names the best row per objective, of equals the lowest', () => {
    const height = Float64Array.of(3, 9, 9, 1);
    const mass = Float64Array.of(2, 4, 4, 1);
    expect(extremeRows([height, mass], ['maximise', 'minimise'])).toEqual([1, 3]);
  });

  it('is empty without rows', () => {
    expect(extremeRows([Float64Array.of()], ['minimise'])).toEqual([]);
  });
});

describe('kneeRow', () => {
  it('finds the point of 1/x that lies farthest from the chord, in any units', () => {
    const x = Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9);
    const y = x.map((value) => 9 / value);
    // Both objectives span 8, so the knee is the lowest x + 9/x: at x = 3.
    expect(kneeRow([x, y], ['minimise', 'minimise'])).toBe(2);
    expect(kneeRow([x, y.map((value) => -1e6 * value)], ['minimise', 'maximise'])).toBe(2);
  });

  it('maximises the distance from the line through the two extremes', () => {
    // Sorting two lists of distinct numbers, one up and one down, makes any pair of them a front.
    const fronts = fc
      .uniqueArray(fc.integer({ min: 0, max: 1000 }), { minLength: 3, maxLength: 20 })
      .chain((xs) =>
        fc.tuple(
          fc.constant(xs),
          fc.uniqueArray(fc.integer({ min: 0, max: 1000 }), { minLength: xs.length, maxLength: xs.length }),
        ),
      );
    fc.assert(
      fc.property(fronts, ([xs, ys]) => {
        const x = Float64Array.from(xs).sort();
        const y = Float64Array.from(ys).sort().reverse();
        const last = x.length - 1;
        const below = (row: number) =>
          -((x[last]! - x[0]!) * (y[row]! - y[0]!) - (y[last]! - y[0]!) * (x[row]! - x[0]!));
        const knee = kneeRow([x, y], ['minimise', 'minimise']);
        // 1e-9 of the box: two rows equally far may differ by the rounding of the scaling.
        const slack = 1e-9 * (x[last]! - x[0]!) * (y[0]! - y[last]!);
        for (let row = 0; row <= last; row++) expect(below(knee)).toBeGreaterThanOrEqual(below(row) - slack);
      }),
    );
  });

  it('takes the lowest of equally good rows', () => {
    expect(kneeRow([Float64Array.of(0, 1), Float64Array.of(1, 0)], ['minimise', 'minimise'])).toBe(0);
  });

  it('gives an objective that is the same everywhere no say', () => {
    const flat = Float64Array.of(7, 7, 7);
    const x = Float64Array.of(0, 2, 9);
    const y = Float64Array.of(9, 1, 0);
    expect(kneeRow([x, flat, y], ['minimise', 'maximise', 'minimise'])).toBe(1);
  });

  it('has an answer when an objective is infinite, and -1 without rows', () => {
    const time = Float64Array.of(Number.POSITIVE_INFINITY, 10);
    expect(kneeRow([time, Float64Array.of(1, 1)], ['maximise', 'minimise'])).toBe(0);
    expect(kneeRow([Float64Array.of()], ['minimise'])).toBe(-1);
  });
});
