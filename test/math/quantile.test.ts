import { describe, expect, it } from 'vitest';
import { quantile } from '../../src/math/quantile.ts';

describe('quantile', () => {
  it.each([
    [0, 1],
    [0.25, 2],
    [0.6, 3.4],
    [1, 5],
  ])('of 1 to 5 at %f is %f', (share, value) => {
    expect(quantile(Float64Array.of(5, 1, 4, 2, 3), share)).toBeCloseTo(value, 12);
  });

  it('is a value of the sample where neighbours agree, infinite ones too, and empty where one is', () => {
    const { POSITIVE_INFINITY } = Number;
    expect(quantile(Float64Array.of(POSITIVE_INFINITY, POSITIVE_INFINITY, 1), 0.9)).toBe(POSITIVE_INFINITY);
    expect(quantile(Float64Array.of(1, Number.NaN), 0.5)).toBeNaN();
  });
});
