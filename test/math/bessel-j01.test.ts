import { describe, expect, it } from 'vitest';
import { besselJ01, J01_TABLE_END } from '../../src/math/bessel-j01.ts';

function at(x: number) {
  const out = { j0: 0, j1: 0 };
  besselJ01(x, out);
  return out;
}

describe('besselJ01', () => {
  // Abramowitz & Stegun (1964), table 9.1 (from memory; recomputed with mpmath)
  it.each([
    [0, 1, 0],
    [1, 0.765197686557967, 0.440050585744934],
    [2, 0.223890779141236, 0.576724807756873],
    [5, -0.177596771314338, -0.327579137591465],
    [10, -0.245935764451348, 0.0434727461688614],
  ])('reads the table of A&S at x = %d', (x, j0, j1) => {
    expect(Math.abs(at(x).j0 - j0)).toBeLessThan(1e-13);
    expect(Math.abs(at(x).j1 - j1)).toBeLessThan(1e-13);
  });

  it('holds to 4e-7 between its entries: against the integral (1/pi) int cos(n t - x sin t) dt', () => {
    // the trapezium rule converges exponentially; 200 points are exact to rounding up to x = 64
    const integral = (n: number, x: number) => {
      let sum = 0;
      for (let i = 0; i < 200; i++) {
        const t = (2 * Math.PI * i) / 200;
        sum += Math.cos(n * t - x * Math.sin(t));
      }
      return sum / 200;
    };
    for (let x = 0.0156; x <= J01_TABLE_END; x += 0.7531) {
      expect(Math.abs(at(x).j0 - integral(0, x))).toBeLessThan(1e-9 + 1e-9 * x);
      expect(Math.abs(at(x).j1 - integral(1, x))).toBeLessThan(4e-7);
    }
    expect(Math.abs(at(64).j0 - integral(0, 64))).toBeLessThan(1e-12);
  });
});
