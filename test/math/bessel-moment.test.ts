import { describe, expect, it } from 'vitest';
import { besselMoment, momentTailP, momentTailQ } from '../../src/math/bessel-moment.ts';

describe('besselMoment', () => {
  // scipy 1.17: pi x / 2 (J1(x) H0(x) - J0(x) H1(x)) with scipy.special.jv and struve
  const scipy: [number, number][] = [
    [0.5, 0.020445603025638602],
    [0.999, 0.15409305549065064],
    [1.0001, 0.15457673241641073],
    [2, 0.9779887349145557],
    [7.3, -1.060443661929217],
    [12.345, -0.6708048726461597],
    [33.3, -0.9873172247117097],
    [50.01, -1.9378198233498196],
    [63.9, -5.101298561651413],
  ];

  it('agrees with Bessel and Struve functions to 1e-10 over the whole table', () => {
    // 1e-10: the quintic pieces are good to about 1e-11, five times an amplitude of up to 5
    for (const [x, value] of scipy) expect(Math.abs(besselMoment(x) - value)).toBeLessThan(1e-10);
  });

  it('behaves as x^3 / 6 near zero, to full relative accuracy', () => {
    for (const x of [1e-8, 1e-4]) expect(besselMoment(x) / (x ** 3 / 6)).toBeCloseTo(1, 8);
  });

  it('meets its asymptotic form from x = 10 on', () => {
    for (const [x, tolerance] of [
      [10, 2e-5],
      [15, 1e-6],
      [25, 1e-8],
      [60, 1e-10],
    ] as const) {
      const phase = x - 0.75 * Math.PI;
      const tail =
        1 +
        Math.sqrt((2 * x) / Math.PI) * (momentTailQ(x) * Math.cos(phase) + momentTailP(x) * Math.sin(phase));
      expect(Math.abs(tail - besselMoment(x))).toBeLessThan(tolerance);
    }
  });
});
