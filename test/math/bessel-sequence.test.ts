import { describe, expect, it } from 'vitest';
import { besselSequence } from '../../src/math/bessel-sequence.ts';

describe('besselSequence', () => {
  it('agrees with a multiprecision library below, at and above the order', () => {
    // x, n, J_n(x): mpmath, 30 digits, rounded to a double
    const rows = [
      [0.5, 0, 0.9384698072408129],
      [0.5, 6, 3.3606846286188487e-7],
      [3, 1, 0.3390589585259365],
      [20, 8, -0.07386892884075034],
      [77.7, 3, -0.09054953192286497],
      [77.7, 70, 0.011956797632413172],
      [300, 1, -0.03188743137749995],
    ] as const;
    const out = new Float64Array(80);
    for (const [x, n, value] of rows) {
      besselSequence(x, 80, out);
      // the recurrence adds a rounding a step
      expect(Math.abs(out[n]! - value)).toBeLessThan(1e-14);
    }
  });

  it('is 1, 0, 0, ... at zero', () => {
    const out = new Float64Array(4).fill(7);
    besselSequence(0, 4, out);
    expect(Array.from(out)).toEqual([1, 0, 0, 0]);
  });

  it('neither overflows nor divides by nothing where orders lie far above the argument', () => {
    const out = new Float64Array(140);
    besselSequence(1e-3, 140, out);
    expect(out.every(Number.isFinite)).toBe(true);
    // J_1 = x/2 (1 - x^2/8)
    expect(out[1]).toBeCloseTo(4.999999375e-4, 14);
  });
});
