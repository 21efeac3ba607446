import { describe, expect, it } from 'vitest';
import { airProperties } from '../../src/kernel/air.ts';
import { GRAVITY, ZERO_CELSIUS } from '../../src/kernel/constants.ts';
import {
  airAtSurface,
  airConductivity,
  conductivityOf,
  createStillAir,
  createSurfaces,
  fillSurfaces,
  freeFace,
  freeFaceCoefficient,
  type StillAir,
  stillAir,
  trappedFace,
  trappedFaceCoefficient,
  trappedShape,
  uprightSide,
  verticalCoefficient,
} from '../../src/kernel/convection.ts';

function between(surface: number, surroundings: number): StillAir {
  const out = createStillAir();
  stillAir(surface, surroundings, out);
  return out;
}

/** Ra / L^3, 1/m3, from the properties themselves. */
function rayleighPerCube(surface: number, surroundings: number): number {
  const air = { conductivity: 0, buoyancy: 0, prandtl: 0 };
  airProperties((surface + surroundings) / 2, air);
  return GRAVITY * air.buoyancy * Math.abs(surface - surroundings);
}

describe('verticalCoefficient', () => {
  it('gives 7.0 W/(m2 K) and 1060 W for the glass door of Incropera, example 9.2 (from memory)', () => {
    // 0.71 m high, 1.02 m wide, 232 degC in 23 degC; the book: Ra 1.813e9, Nu 147
    const air = between(232 + ZERO_CELSIUS, 23 + ZERO_CELSIUS);
    const h = verticalCoefficient(air, 0.71);
    // properties of one atmosphere instead of the book's table: under 2 %
    const rayleigh = rayleighPerCube(232 + ZERO_CELSIUS, 23 + ZERO_CELSIUS) * 0.71 ** 3;
    expect(Math.abs(rayleigh / 1.813e9 - 1)).toBeLessThan(0.04);
    expect(Math.abs(h / 7 - 1)).toBeLessThan(0.02);
    expect(Math.abs((h * 0.71 * 1.02 * 209) / 1060 - 1)).toBeLessThan(0.02);
  });

  it('tends to conduction from a plate too small for air to rise', () => {
    const air = between(301, 300);
    expect(verticalCoefficient(air, 1e-12) / ((0.825 ** 2 * conductivityOf(air)) / 1e-12)).toBeCloseTo(1, 3);
  });
});

describe('freeFaceCoefficient', () => {
  it('gives 5.47 W/(m2 K) for the top of the duct of Incropera, example 9.3 (from memory)', () => {
    // 0.75 m wide and long: area over perimeter 0.375 m
    const h = freeFaceCoefficient(between(45 + ZERO_CELSIUS, 15 + ZERO_CELSIUS), 0.375);
    expect(Math.abs(h / 5.47 - 1)).toBeLessThan(0.02);
  });

  it('does not jump where one law takes over from the other', () => {
    const air = between(350, 300);
    // Ra = (0.54 / 0.15)^12
    const crossing = 3.6 ** 4 / Math.cbrt(rayleighPerCube(350, 300));
    const below = freeFaceCoefficient(air, crossing * (1 - 1e-9));
    const above = freeFaceCoefficient(air, crossing * (1 + 1e-9));
    expect(above / below).toBeCloseTo(1, 8);
    // one law on either side; properties are read to 1e-4
    const nusselt = (length: number) => (freeFaceCoefficient(air, length) * length) / conductivityOf(air);
    for (const [length, law] of [
      [crossing / 3, 0.54 * (3.6 ** 12 / 27) ** 0.25],
      [crossing * 3, 0.15 * Math.cbrt(3.6 ** 12 * 27)],
    ] as const) {
      expect(Math.abs(nusselt(length) / law - 1)).toBeLessThan(2e-4);
    }
  });
});

describe('trappedFaceCoefficient', () => {
  it('is 0.52 Ra^(1/5) and weaker than the free face', () => {
    const air = between(350, 300);
    const nusselt = 0.52 * (rayleighPerCube(350, 300) * 1e-3) ** 0.2;
    const trapped = trappedFaceCoefficient(air, trappedShape(0.1));
    // properties are read to 1e-4
    expect(Math.abs(trapped / ((conductivityOf(air) / 0.1) * nusselt) - 1)).toBeLessThan(2e-4);
    expect(trapped).toBeLessThan(freeFaceCoefficient(air, 0.1));
  });
});

describe('stillAir', () => {
  it('reads the properties of the film temperature to 1e-4', () => {
    const exact = { conductivity: 0, buoyancy: 0, prandtl: 0 };
    for (const surface of [297, 351.7, 420, 700, 1213]) {
      const air = between(surface, 295);
      airProperties((surface + 295) / 2, exact);
      expect(Math.abs(conductivityOf(air) / exact.conductivity - 1)).toBeLessThan(1e-4);
      const rayleigh = rayleighPerCube(surface, 295) * 0.5 ** 3;
      const factor = (1 + (0.492 / exact.prandtl) ** (9 / 16)) ** (8 / 27);
      const nusselt = (0.825 + (0.387 * rayleigh ** (1 / 6)) / factor) ** 2;
      expect(
        Math.abs((verticalCoefficient(air, 0.5) * 0.5) / (exact.conductivity * nusselt) - 1),
      ).toBeLessThan(2e-4);
    }
  });

  it('has the conductivity that air between two surfaces has', () => {
    // below and beyond the table, at its ends and in it
    for (const surface of [40, 100, 297, 351.7, 700, 2000, 4000]) {
      expect(airConductivity(surface, 295)).toBe(conductivityOf(between(surface, 295)));
      expect(airConductivity(295, surface)).toBe(conductivityOf(between(surface, 295)));
    }
  });

  it('counts the difference by its size alone', () => {
    expect(between(350, 300)).toEqual(between(300, 350));
    expect(freeFaceCoefficient(between(300, 300), 0.1)).toBe(0);
    expect(trappedFaceCoefficient(between(300, 300), 1)).toBe(0);
  });
});

describe('laws with slopes', () => {
  const ROOM = 295;
  const LENGTH = 0.04;
  const HEIGHT = 0.03;
  const laws = [
    ['a free face', freeFace, (T: number) => freeFaceCoefficient(between(T, ROOM), LENGTH)],
    [
      'a trapped face',
      trappedFace,
      (T: number) => trappedFaceCoefficient(between(T, ROOM), trappedShape(LENGTH)),
    ],
    ['an upright side', uprightSide, (T: number) => verticalCoefficient(between(T, ROOM), HEIGHT)],
  ] as const;

  it.each(laws)(
    'give the coefficient of %s and how its flux rises, above and below the room',
    (_, law, h) => {
      const surfaces = createSurfaces();
      fillSurfaces(ROOM, LENGTH, HEIGHT, surfaces);
      for (const T of [251.3, 296.4, 322.7, 410.9, 801.2]) {
        surfaces.surface = T;
        airAtSurface(surfaces);
        law(surfaces);
        // roots come from tables that are good to 3e-8
        expect(Math.abs(surfaces.chord / h(T) - 1)).toBeLessThan(2e-7);
        // within one cell of the table of air, 2.5 K of the mean, all is smooth
        const flux = (at: number) => h(at) * (at - ROOM);
        const slope = (flux(T + 0.05) - flux(T - 0.05)) / 0.1;
        expect(Math.abs(surfaces.slope / slope - 1)).toBeLessThan(2e-4);
      }
    },
  );
});
