import { describe, expect, it } from 'vitest';
import { airProperties } from '../../src/kernel/air.ts';
import { GRAVITY, ZERO_CELSIUS } from '../../src/kernel/constants.ts';
import {
  freeFaceCoefficient,
  type StillAir,
  stillAir,
  trappedFaceCoefficient,
  verticalCoefficient,
} from '../../src/kernel/convection.ts';

function between(surface: number, surroundings: number): StillAir {
  const out = { conductivity: 0, rayleighPerCube: 0, vertical: 0 };
  stillAir(surface, surroundings, out);
  return out;
}

describe('verticalCoefficient', () => {
  it('gives 7.0 W/(m2 K) and 1060 W for the glass door of Incropera, example 9.2 (from memory)', () => {
    // 0.71 m high, 1.02 m wide, 232 degC in 23 degC; the book: Ra 1.813e9, Nu 147
    const air = between(232 + ZERO_CELSIUS, 23 + ZERO_CELSIUS);
    const h = verticalCoefficient(air, 0.71);
    // properties of one atmosphere instead of the book's table: under 2 %
    expect(Math.abs((air.rayleighPerCube * 0.71 ** 3) / 1.813e9 - 1)).toBeLessThan(0.04);
    expect(Math.abs(h / 7 - 1)).toBeLessThan(0.02);
    expect(Math.abs((h * 0.71 * 1.02 * 209) / 1060 - 1)).toBeLessThan(0.02);
  });

  it('tends to conduction from a plate too small for air to rise', () => {
    const air = between(301, 300);
    expect(verticalCoefficient(air, 1e-12) / ((0.825 ** 2 * air.conductivity) / 1e-12)).toBeCloseTo(1, 3);
  });
});

describe('freeFaceCoefficient', () => {
  it('gives 5.47 W/(m2 K) for the top of the duct of Incropera, example 9.3 (from memory)', () => {
    // 0.75 m wide and long: area over perimeter 0.375 m
    const h = freeFaceCoefficient(between(45 + ZERO_CELSIUS, 15 + ZERO_CELSIUS), 0.375);
    expect(Math.abs(h / 5.47 - 1)).toBeLessThan(0.02);
  });

  it('does not jump where one law takes over from the other', () => {
    const air = { conductivity: 0.03, rayleighPerCube: 1, vertical: 0.3 };
    const crossing = 3.6 ** 4;
    const below = freeFaceCoefficient(air, crossing * (1 - 1e-9));
    const above = freeFaceCoefficient(air, crossing * (1 + 1e-9));
    expect(above / below).toBeCloseTo(1, 8);
    // and 0.15 Ra^(1/3) at Ra = 1e8
    expect(freeFaceCoefficient(air, 1e8 ** (1 / 3))).toBeCloseTo(
      (0.03 * 0.15 * 1e8 ** (1 / 3)) / 1e8 ** (1 / 3),
      12,
    );
  });
});

describe('trappedFaceCoefficient', () => {
  it('is 0.52 Ra^(1/5) and weaker than the free face', () => {
    const air = { conductivity: 0.03, rayleighPerCube: 1e8, vertical: 0.3 };
    expect(trappedFaceCoefficient(air, 0.1)).toBeCloseTo(0.3 * 0.52 * 1e5 ** 0.2, 12);
    expect(trappedFaceCoefficient(air, 0.1)).toBeLessThan(freeFaceCoefficient(air, 0.1));
  });
});

describe('stillAir', () => {
  it('reads the properties of the film temperature to 1e-4', () => {
    const exact = { conductivity: 0, buoyancy: 0, prandtl: 0 };
    for (const surface of [297, 351.7, 420, 700, 1213]) {
      const air = between(surface, 295);
      airProperties((surface + 295) / 2, exact);
      expect(Math.abs(air.conductivity / exact.conductivity - 1)).toBeLessThan(1e-4);
      const rayleigh = GRAVITY * exact.buoyancy * (surface - 295);
      expect(Math.abs(air.rayleighPerCube / rayleigh - 1)).toBeLessThan(1e-3);
    }
  });

  it('counts the difference by its size alone', () => {
    expect(between(350, 300)).toEqual(between(300, 350));
    expect(between(300, 300).rayleighPerCube).toBe(0);
  });
});
