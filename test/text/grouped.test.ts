import { describe, expect, it } from 'vitest';
import { grouped } from '../../src/text/grouped.ts';

describe('grouped', () => {
  it('writes numbers as the language English groups them', () => {
    const whole = Array.from({ length: 22 }, (_, n) => [10 ** n - 1, 10 ** n, -(10 ** n)]).flat();
    for (const n of [
      ...whole,
      1234,
      4294967295,
      1e25,
      0.5,
      1234.5678,
      Number.NaN,
      Number.POSITIVE_INFINITY,
    ]) {
      expect(grouped(n)).toBe(n.toLocaleString('en'));
    }
  });
});
