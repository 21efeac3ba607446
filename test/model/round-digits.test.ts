import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { roundDigits } from '../../src/model/round-digits.ts';

afterEach(() => vi.restoreAllMocks());

const asText = (value: number, digits: number) => Number(value.toPrecision(digits));
const DIGITS = fc.integer({ min: 1, max: 17 });

describe('roundDigits', () => {
  it('gives what the text of that many digits reads as, for any double', () => {
    fc.assert(
      fc.property(fc.double(), DIGITS, (value, digits) => {
        expect(roundDigits(value, digits)).toBe(asText(value, digits));
      }),
      { numRuns: 3000 },
    );
  });

  it('gives it half-way between two roundings, and next to a power of ten', () => {
    const near = fc.record({
      digits: fc.integer({ min: 1, max: 15 }),
      exponent: fc.integer({ min: -14, max: 8 }),
      first: fc.integer({ min: 1, max: 999_999_999_999 }),
      ulps: fc.integer({ min: -3, max: 3 }),
    });
    fc.assert(
      fc.property(near, ({ digits, exponent, first, ulps }) => {
        for (const plain of [(first + 0.5) * 10 ** exponent, 10 ** exponent]) {
          const value = plain * (1 + ulps * 2 ** -52);
          expect(roundDigits(value, digits)).toBe(asText(value, digits));
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('makes a text of few values of a range', () => {
    const text = vi.spyOn(Number.prototype, 'toPrecision');
    for (let i = 1; i <= 10_000; i++) roundDigits(1 + (i * 19) / 10_007, 12);
    expect(text.mock.calls.length).toBeLessThan(20);
  });
});
