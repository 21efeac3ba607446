import { describe, expect, it } from 'vitest';
import { cubicSum, fifthRootOfSquare, sixthRootOfSquare } from '../../src/math/roots.ts';

/** From far below the tables to far above them, and both sides of where they begin and end. */
const ARGUMENTS = [0, 1e-9, 0.3, 1 - 1e-12, 1, 1.0624, 1.0626, 2.71, 13.999, 47.97, 48, 900];

describe('roots', () => {
  // the first term of the series that is left out: 0.03 / 16^5
  it.each(ARGUMENTS)('the fifth and the sixth root of the square of %d', (s) => {
    expect(Math.abs(fifthRootOfSquare(s) - s ** 0.4)).toBeLessThanOrEqual(3e-8 * s ** 0.4);
    expect(Math.abs(sixthRootOfSquare(s) - Math.cbrt(s))).toBeLessThanOrEqual(3e-8 * Math.cbrt(s));
  });

  it('the cube root of a sum of cubes, either way round', () => {
    for (const b of [0, 1e-6, 0.31, 0.5, 0.9, 1]) {
      const exact = Math.cbrt(1 + b ** 3);
      expect(Math.abs(cubicSum(1, b) / exact - 1)).toBeLessThan(2e-9);
      expect(cubicSum(7 * b, 7)).toBeCloseTo(7 * cubicSum(1, b), 12);
    }
  });
});
