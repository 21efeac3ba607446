import { describe, expect, it } from 'vitest';
import { ZERO_CELSIUS } from '../../src/kernel/constants.ts';
import { boreRadiatingArea, facingEmissivity, radiantFlux } from '../../src/kernel/radiation.ts';

describe('radiantFlux', () => {
  it('gives the black-body coefficients 6.9935 and 7.7199 W/(m2 K) at 60 and 80 degC in 20 degC (recomputed)', () => {
    const per = (celsius: number) =>
      radiantFlux(celsius + ZERO_CELSIUS, 20 + ZERO_CELSIUS, 1) / (celsius - 20);
    expect(per(60)).toBeCloseTo(6.9935, 4);
    expect(per(80)).toBeCloseTo(7.7199, 4);
  });

  it('gives 421 W per metre for the steam pipe of Incropera, example 1.2 (from memory)', () => {
    // 70 mm, 200 degC in 25 degC, emissivity 0.8; printed to three digits
    const flux = radiantFlux(473, 298, 0.8);
    expect(Math.abs(flux * Math.PI * 0.07 - 421)).toBeLessThan(1);
  });

  it('changes sign with the difference', () => {
    expect(radiantFlux(300, 350, 0.5)).toBe(-radiantFlux(350, 300, 0.5));
  });
});

describe('facingEmissivity', () => {
  it('is 1 between black faces and half of a poor emitter between two of them', () => {
    expect(facingEmissivity(1, 1)).toBe(1);
    expect(facingEmissivity(0.01, 0.01)).toBeCloseTo(0.005, 4);
    expect(facingEmissivity(0.3, 1)).toBeCloseTo(0.3, 12);
  });
});

describe('boreRadiatingArea', () => {
  it('is the wall of a shallow ring and the two mouths of a deep bore', () => {
    // shallow: the wall sees only the room, up to H/(2R)
    expect(boreRadiatingArea(0.1, 1e-5, 0.9) / (0.9 * 2 * Math.PI * 0.1 * 1e-5)).toBeCloseTo(1, 3);
    // deep: 1 - F12 tends to 1, and the wall is large against the mouths
    expect(boreRadiatingArea(0.1, 100, 0.9) / (2 * Math.PI * 0.01)).toBeCloseTo(1, 3);
  });

  it('uses the tabulated view factor between discs one radius apart, 0.382', () => {
    // F12 = (3 - sqrt(5)) / 2 for H = R (a black wall)
    expect(boreRadiatingArea(1, 1, 1)).toBeCloseTo(2 * Math.PI * (1 - (3 - Math.sqrt(5)) / 2), 12);
  });
});
