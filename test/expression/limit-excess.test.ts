import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitExcess, limitGap } from '../../src/expression/limit-excess.ts';

describe('limit excess', () => {
  it('is nearly the share of the bound while it is small', () => {
    // e/(e + r) is e/r less its square
    expect(limitExcess(101, 100)).toBeCloseTo(0.01, 3);
    expect(limitExcess(-101, -100)).toBeCloseTo(0.01, 3);
    expect(limitExcess(0.0101, 0.01)).toBeCloseTo(0.01, 3);
  });

  it('grows with the distance from the bound and stays within 0 and 1', () => {
    const positive = fc.double({ min: 1e-9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(positive, fc.double({ min: -1e9, max: 1e9, noNaN: true }), (e, right) => {
        const [near, far] = [limitExcess(right + e, right), limitExcess(right + 3 * e, right)];
        expect(near).toBeGreaterThan(0);
        expect(far).toBeGreaterThanOrEqual(near);
        expect(far).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('is above 0 for a strict limit that is unmet by nothing, and 1 for an empty or infinite value', () => {
    expect(limitExcess(5, 5)).toBe(Number.EPSILON);
    expect(limitExcess(Number.NaN, 5)).toBe(1);
    expect(limitExcess(5, Number.NaN)).toBe(1);
    expect(limitExcess(Number.POSITIVE_INFINITY, 5)).toBe(1);
  });
});

describe('the gap of a limit', () => {
  it('is the share of the bound by which it is exceeded, below 0 where it is met', () => {
    expect(limitGap(110, '<=', 100)).toBeCloseTo(0.1, 15);
    expect(limitGap(90, '<=', 100)).toBeCloseTo(-0.1, 15);
    expect(limitGap(90, '>=', 100)).toBeCloseTo(0.1, 15);
    expect(limitGap(-90, '>', -100)).toBeCloseTo(-0.1, 15);
    expect(limitGap(0.2, '<', 0)).toBeCloseTo(0.2, 15);
  });
});
