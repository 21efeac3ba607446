import { describe, expect, it } from 'vitest';
import { completeElliptic } from '../../src/math/elliptic.ts';

/** m, 1 - m, K, E, (2 - m) K - 2 E: mpmath with 40 digits, rounded to a double (ellipk, ellipe take the parameter m). */
const TABLE = [
  [1e-8, 0.99999999, 1.5707963307218875, 1.5707963228679058, 1.9634954232198365e-17],
  [0.1, 0.9, 1.6124413487202194, 1.5307576368977631, 0.002123288772890452],
  [0.5, 0.5, 1.8540746773013719, 1.3506438810476755, 0.07982425385670687],
  [0.9, 0.1, 2.5780921133481733, 1.1047747327040733, 0.6263518592748438],
  [0.99, 0.01, 3.6956373629898747, 1.015993545025224, 1.7006066465693257],
  [0.999999, 1e-6, 8.29405146361544, 1.0000038970261722, 6.294051963614559],
  [0.99999999999999, 1e-14, 17.50439001207825, 1.000000000000085, 15.504390012078257],
] as const;

const out = { K: 0, E: 0, C: 0 };

describe('completeElliptic', () => {
  it('agrees with a multiprecision library from nearly equal to nearly degenerate arguments', () => {
    for (const [m, m1, K, E, C] of TABLE) {
      completeElliptic(m, m1, out);
      // a handful of roundings: 8 epsilon; E loses a digit where it is a small part of K
      expect(Math.abs(out.K / K - 1)).toBeLessThan(2e-15);
      expect(Math.abs(out.E / E - 1)).toBeLessThan(2e-15 * K);
      expect(Math.abs(out.C / C - 1)).toBeLessThan(2e-15);
    }
  });

  it('gives pi/2 twice at m = 0 and the degenerate limit at m = 1', () => {
    completeElliptic(0, 1, out);
    expect(out).toEqual({ K: Math.PI / 2, E: Math.PI / 2, C: 0 });
    completeElliptic(1, 0, out);
    expect(out).toEqual({ K: Infinity, E: 1, C: Infinity });
  });

  it("satisfies Legendre's relation E K' + E' K - K K' = pi/2", () => {
    for (const m of [0.03, 0.2, 0.5, 0.77]) {
      completeElliptic(m, 1 - m, out);
      const { K, E } = out;
      completeElliptic(1 - m, m, out);
      // differences of numbers of order 5: a few epsilon absolute
      expect(E * out.K + out.E * K - K * out.K).toBeCloseTo(Math.PI / 2, 14);
    }
  });
});
