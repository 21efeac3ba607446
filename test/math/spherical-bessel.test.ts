import { describe, expect, it } from 'vitest';
import { sphericalBessel } from '../../src/math/spherical-bessel.ts';

describe('sphericalBessel', () => {
  it('agrees with a multiprecision library from tiny to large arguments', () => {
    // q, n, e^{-q} i_n(q), e^{q} k_n(q): mpmath, 30 digits, rounded to a double
    const rows = [
      [1e-6, 0, 0.9999990000006667, 1000000],
      [1e-6, 3, 9.52380000000529e-21, 1.5000015000006003e25],
      [0.5, 5, 1.8409903951734993e-6, 98342],
      [3, 1, 0.11166194492814809, 0.4444444444444444],
      [20, 7, 0.00605116337890625, 0.1934369466796875],
      [300, 2, 0.0016500555555555557, 0.0033667777777777776],
    ] as const;
    const first = new Float64Array(10);
    const second = new Float64Array(10);
    for (const [q, n, i, k] of rows) {
      sphericalBessel(q, 10, first, second);
      // a rounding a step of the recurrences
      expect(Math.abs(first[n]! / i - 1)).toBeLessThan(1e-13);
      expect(Math.abs(second[n]! / k - 1)).toBeLessThan(1e-13);
    }
  });

  it('keeps the Wronskian i_n k_{n+1} + i_{n+1} k_n = 1 / q^2', () => {
    const first = new Float64Array(21);
    const second = new Float64Array(21);
    for (const q of [0.01, 1, 10, 100]) {
      sphericalBessel(q, 21, first, second);
      for (let n = 0; n < 20; n++) {
        const wronskian = first[n]! * second[n + 1]! + first[n + 1]! * second[n]!;
        // the same roundings
        expect(Math.abs(wronskian * q * q - 1)).toBeLessThan(1e-12);
      }
    }
  });
});
