import { describe, expect, it } from 'vitest';
import { besselJ1 } from '../../src/math/bessel-j1.ts';

describe('besselJ1', () => {
  it('is within 1e-7 on both sides of its seam and far out', () => {
    // x, J_1(x): mpmath, 30 digits
    const rows = [
      [0.5, 0.2422684576748739],
      [2.9, 0.37542748181309593],
      [3, 0.3390589585259365],
      [3.1, 0.3009211331010576],
      [20, 0.06683312417585005],
      [777.7, -0.023133733295178583],
    ] as const;
    for (const [x, value] of rows) expect(Math.abs(besselJ1(x) - value)).toBeLessThan(1e-7);
  });
});
