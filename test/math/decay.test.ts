import { describe, expect, it } from 'vitest';
import { decay } from '../../src/math/decay.ts';

describe('decay', () => {
  it('agrees with the engine to 4e-15 up to 64 and is nothing beyond', () => {
    for (let i = 0; i < 6400; i++) {
      const x = i / 100 + 1e-3;
      const expected = Math.exp(-x);
      // the term left out, 2.4e-15, and the rounding of two tables, their product and the sum
      expect(Math.abs(decay(x) - expected)).toBeLessThanOrEqual(4e-15 * expected);
    }
    expect(decay(0)).toBe(1);
    expect(decay(64)).toBe(0);
    expect(decay(Number.POSITIVE_INFINITY)).toBe(0);
  });
});
