import { describe, expect, it } from 'vitest';
import { besselRatio } from '../../src/math/bessel-ratio.ts';

function at(x: number): [re: number, imOverLimit: number] {
  const out = { re: 0, imOverLimit: 0 };
  besselRatio(x, out);
  return [out.re, out.imOverLimit];
}

describe('besselRatio', () => {
  // x, Re f, 8 Im f / x^2 with z J0(z) / (2 J1(z)), z = x e^{3 pi j/4}, in 60-digit arithmetic (mpmath besselj, besseli)
  it.each([
    [0.001, 1.00000000000001, 0.999999999999997],
    [0.1, 1.00000052083312, 0.999999739583451],
    [1, 1.00518673139214, 0.997407534091943],
    [2, 1.07815874613062, 0.961135119347777],
    [5, 2.04272506245629, 0.555968119891116],
    [10, 3.79857605218226, 0.281619294016381],
    [20, 7.32767235050317, 0.141278968654477],
    [21.9, 7.99885472196342, 0.129044146752428],
    [22.1, 8.06951112959943, 0.127878312907068],
    [50, 17.9303197183869, 0.0565598127660331],
    [300, 106.316459113223, 0.00942805094635252],
    [10000, 3535.78391919099, 0.000282842711413809],
  ])('agrees at x = %d with 60-digit arithmetic to 1e-12', (x, re, imOverLimit) => {
    const [gotRe, gotIm] = at(x);
    // the accuracy claimed
    expect(Math.abs(gotRe / re - 1)).toBeLessThan(1e-12);
    expect(Math.abs(gotIm / imOverLimit - 1)).toBeLessThan(1e-12);
  });

  it('is continuous where the continued fraction hands over to the asymptotic series', () => {
    const below = at(22);
    const above = at(22 * (1 + 1e-15));
    // both branches claim 1e-12
    for (const i of [0, 1] as const) expect(Math.abs(above[i] / below[i] - 1)).toBeLessThan(2e-12);
  });

  it('is 1 at x = 0 and has its limits at infinity', () => {
    expect(at(0)).toEqual([1, 1]);
    expect(at(Number.POSITIVE_INFINITY)).toEqual([Number.POSITIVE_INFINITY, 0]);
  });
});
