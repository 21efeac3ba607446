import { describe, expect, it } from 'vitest';
import { gaussLegendre } from '../../src/math/gauss-legendre.ts';

describe('gaussLegendre', () => {
  it('has the tabulated five-point abscissas and weights (Abramowitz & Stegun, table 25.4)', () => {
    const { nodes, weights } = gaussLegendre(5);
    const onMinusOneToOne = [...nodes].map((x) => 2 * x - 1);
    const table = [-0.906179845938664, -0.538469310105683, 0, 0.538469310105683, 0.906179845938664];
    const tableWeights = [
      0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189,
    ];
    for (let i = 0; i < 5; i++) {
      expect(onMinusOneToOne[i]).toBeCloseTo(table[i]!, 14);
      expect(2 * weights[i]!).toBeCloseTo(tableWeights[i]!, 14);
    }
  });

  it('integrates polynomials of degree 2n - 1 exactly and not x^2n', () => {
    for (const n of [1, 4, 7, 16]) {
      const { nodes, weights } = gaussLegendre(n);
      const integral = (p: number) => nodes.reduce((sum, x, i) => sum + weights[i]! * x ** p, 0);
      expect(integral(2 * n - 1)).toBeCloseTo(1 / (2 * n), 14);
      if (n < 8) expect(Math.abs(integral(2 * n) - 1 / (2 * n + 1))).toBeGreaterThan(1e-12);
    }
  });
});
