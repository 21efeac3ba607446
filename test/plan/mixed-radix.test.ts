import { describe, expect, it } from 'vitest';
import { setDigits } from '../../src/plan/mixed-radix.ts';

describe('setDigits', () => {
  it('counts through every combination once, the last digit fastest', () => {
    const digits = new Uint32Array(3);
    const all = Array.from({ length: 2 * 3 * 2 }, (_, index) => {
      setDigits([2, 3, 2], index, digits);
      return digits.join('');
    });
    expect(all.slice(0, 4)).toEqual(['000', '001', '010', '011']);
    expect(all.at(-1)).toBe('121');
    expect(new Set(all).size).toBe(12);
    expect(all).toEqual([...all].sort());
  });

  it('is exact for indices beyond 32 bits', () => {
    const digits = new Uint32Array(2);
    setDigits([2 ** 30, 2 ** 20], 2 ** 49 + 3, digits);
    expect([...digits]).toEqual([2 ** 29, 3]);
  });
});
