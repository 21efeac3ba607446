import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../src/math/normal-quantile.ts';

describe('normalQuantile', () => {
  it.each([
    // mpmath: sqrt(2) erfinv(2 p - 1), from memory to the digits given
    [0.5, 0],
    [0.75, 0.6744897502],
    [0.95, 1.644853627],
    [0.975, 1.9599639845],
    [0.999, 3.0902323062],
    [1e-6, -4.7534243088],
    [1e-9, -5.997807015],
  ])('gives the tabulated value at %f', (p, value) => {
    // what the algorithm claims
    expect(Math.abs(normalQuantile(p) - value)).toBeLessThanOrEqual(1e-6 * Math.abs(value) + 1e-12);
  });

  it('is odd about one half', () => {
    for (const p of [0.01, 0.06, 0.2, 0.49]) expect(normalQuantile(1 - p)).toBeCloseTo(-normalQuantile(p), 9);
  });
});
