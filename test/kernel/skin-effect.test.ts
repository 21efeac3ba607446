import { describe, expect, it } from 'vitest';
import { MU0 } from '../../src/kernel/constants.ts';
import { skinArgument, skinEffect } from '../../src/kernel/skin-effect.ts';

function at(x: number) {
  const out = { resistanceRatio: 0, inductanceRatio: 0 };
  skinEffect(x, out);
  return out;
}

describe('skinEffect', () => {
  it('adds 10.05 % at x = 2.14 (Neher & McGrath 1957, Table III, quoted at second hand)', () => {
    // printed to 0.01 %
    expect(at(2.14).resistanceRatio).toBeCloseTo(1.1005, 4);
  });

  // NBS Circular 74, skin-effect table (three decimals; from memory, low)
  it.each([
    [1, 1.005, 0.997],
    [2, 1.078, 0.961],
    [3, 1.318, 0.845],
    [4, 1.678, 0.686],
    [5, 2.043, 0.556],
    [10, 3.799, 0.282],
  ])('reads as the published table at x = %d', (x, resistance, inductance) => {
    expect(Math.abs(at(x).resistanceRatio - resistance)).toBeLessThan(6e-4);
    expect(Math.abs(at(x).inductanceRatio - inductance)).toBeLessThan(6e-4);
  });

  it('rises as x^4 / 192 at first', () => {
    // next term of R/R0 - 1 is x^4 smaller by x^4/250 or so: 1e-5 at x = 0.25
    expect((at(0.25).resistanceRatio - 1) / (0.25 ** 4 / 192)).toBeCloseTo(1, 3);
  });

  it('tends to the rim current of a thick wire, radius / (2 skin depth) + 1/4', () => {
    const x = 1000;
    // the next term is 3 sqrt(2) / (32 x)
    expect(at(x).resistanceRatio - x / Math.sqrt(8) - 0.25).toBeCloseTo((3 * Math.SQRT2) / (32 * x), 6);
  });
});

describe('skinArgument', () => {
  it('is sqrt(2) radius over skin depth', () => {
    const omega = 2 * Math.PI * 60;
    const rho = 1 / 58e6;
    const depth = Math.sqrt((2 * rho) / (omega * MU0 * 4));
    expect(skinArgument(0.01, rho, 4, omega)).toBeCloseTo((Math.SQRT2 * 0.01) / depth, 12);
  });
});
