import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frontQuality } from '../../src/front/front-quality.ts';

const LOW = ['minimise', 'minimise'] as const;

describe('front quality', () => {
  it('is the share of the box that a staircase leaves to its front, the box a tenth larger than the front', () => {
    const { hypervolume, best, reference } = frontQuality(
      [Float64Array.of(0, 5, 10), Float64Array.of(20, 10, 0)],
      LOW,
    );
    // in units of the extents, up to 1.1: 0.1 x 1.1 and 0.6 x 0.6 and what lies between
    expect(hypervolume).toBeCloseTo((0.5 * 0.1 + 0.5 * 0.6 + 0.1 * 1.1) / 1.21, 12);
    expect(best).toEqual([0, 0]);
    expect(reference).toEqual([11, 22]);
  });

  it('knows which way is better', () => {
    const { best, reference } = frontQuality(
      [Float64Array.of(10, 20), Float64Array.of(1, 2)],
      ['maximise', 'minimise'],
    );
    expect(best).toEqual([20, 1]);
    expect(reference).toEqual([9, 2.1]);
  });

  it('does not hang on units or on the order of the rows', () => {
    const rows = fc.uniqueArray(fc.integer({ min: 1, max: 1000 }), { minLength: 3, maxLength: 20 });
    fc.assert(
      fc.property(rows, fc.boolean(), (xs, descending) => {
        const sorted = [...xs].sort((a, b) => (descending ? b - a : a - b));
        const plain = frontQuality([Float64Array.from(xs), Float64Array.from(xs, (x) => 1e4 / x)], LOW);
        const other = frontQuality(
          [Float64Array.from(sorted, (x) => x * 1024), Float64Array.from(sorted, (x) => 1e4 / x / 64)],
          LOW,
        );
        // powers of two scale without rounding; sums come in another order
        expect(other.hypervolume).toBeCloseTo(plain.hypervolume!, 12);
        expect(other.unevenness).toBeCloseTo(plain.unevenness!, 12);
      }),
    );
  });

  it('has no spread to speak of when designs are evenly apart, and much when they crowd', () => {
    const even = Float64Array.of(0, 1, 2, 3, 4);
    expect(frontQuality([even, even.map((x) => 4 - x)], LOW).unevenness).toBeCloseTo(0, 12);
    const crowded = Float64Array.of(0, 0.01, 0.02, 0.03, 4);
    expect(frontQuality([crowded, crowded.map((x) => 4 - x)], LOW).unevenness).toBeGreaterThan(1);
  });

  it('counts designs that are equal in every objective once', () => {
    const once = frontQuality([Float64Array.of(0, 1, 3), Float64Array.of(3, 1, 0)], LOW);
    const twice = frontQuality([Float64Array.of(0, 1, 3, 1), Float64Array.of(3, 1, 0, 1)], LOW);
    expect(twice).toEqual(once);
  });

  it('has no hypervolume where the front spans nothing or there are too many objectives', () => {
    expect(frontQuality([Float64Array.of(4)], ['minimise'])).toEqual({
      hypervolume: null,
      best: [4],
      reference: [4],
      unevenness: null,
    });
    expect(frontQuality([Float64Array.of(1, 1), Float64Array.of(2, 2)], LOW).hypervolume).toBeNull();
    const four = [1, 2, 3, 4].map((k) => Float64Array.of(k, -k));
    expect(frontQuality(four, [...LOW, ...LOW]).hypervolume).toBeNull();
    expect(
      frontQuality([Float64Array.of(1, Number.NEGATIVE_INFINITY), Float64Array.of(2, 3)], LOW).hypervolume,
    ).toBeNull();
  });
});
