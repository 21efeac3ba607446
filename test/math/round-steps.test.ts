import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundSteps } from '../../src/math/round-steps.ts';

describe('roundSteps', () => {
  it('counts as people do, and ends at the end', () => {
    expect(roundSteps(6.7, 16, 11)).toEqual([6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]);
    expect(roundSteps(3.9, 9.026, 11)).toEqual([3, 4, 5, 6, 7, 8, 9.026]);
    expect(roundSteps(0, 0.3, 4)).toEqual([0.1, 0.2, 0.3]);
  });

  it('leaves out a round number right below the end', () => {
    expect(roundSteps(0, 10.1, 11)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10.1]);
  });

  it('gives at most as many as asked for, rising, between the ends', () => {
    const sizes = fc.double({ min: 1e-3, max: 1e4, noNaN: true });
    const shares = fc.double({ min: 0, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(sizes, shares, fc.integer({ min: 3, max: 20 }), (high, share, most) => {
        const steps = roundSteps(share * high, high, most);
        expect(steps.length).toBeLessThanOrEqual(most);
        expect(steps.at(-1)).toBe(high);
        expect(steps[0]!).toBeGreaterThan(0);
        steps.slice(1).forEach((step, i) => {
          expect(step).toBeGreaterThan(steps[i]!);
        });
      }),
      { seed: 3 },
    );
  });
});
