import { describe, expect, it } from 'vitest';
import { relaxationTime } from '../../src/math/relaxation-time.ts';

describe('relaxationTime', () => {
  it('is the exact exponential for a linear rate, however near the end lies to the rest point', () => {
    const constant = 700;
    const rate = (y: number) => (400 - y) / constant;
    for (const to of [301, 350, 399, 399.999, 400 - 1e-9]) {
      // rounding: at the last one the distance is 1e-9 of numbers known to 6e-14, spread over 25 time constants
      const exact = constant * Math.log(100 / (400 - to));
      expect(Math.abs(relaxationTime(rate, 300, to, 400) / exact - 1)).toBeLessThan(
        400 - to < 1e-6 ? 1e-5 : 1e-11,
      );
    }
    // downward as well
    expect(relaxationTime((y) => (300 - y) / constant, 400, 310, 300)).toBeCloseTo(
      constant * Math.log(10),
      9,
    );
  });

  it('is exact to 4e-5 for a rate of second degree', () => {
    // dy/dt = (2 - y)(5 + y): partial fractions
    const rate = (y: number) => (2 - y) * (5 + y);
    const exact = (to: number) => (Math.log((5 + to) / (2 - to)) - Math.log(5 / 2)) / 7;
    for (const to of [0.5, 1.9, 1.999999]) {
      // four points a panel of a fiftieth: 3.1e-5 measured
      expect(Math.abs(relaxationTime(rate, 0, to, 2) / exact(to) - 1)).toBeLessThan(4e-5);
    }
  });

  it('takes any value beyond the end where there is no rest point', () => {
    // dy/dt = 1 + y^2: arctangent
    const time = relaxationTime((y) => 1 + y * y, 0, 1, 2);
    // with a rate that doubles on the way and no rest point to lean on: 5e-5 measured
    expect(Math.abs(time / (Math.PI / 4) - 1)).toBeLessThan(1e-4);
  });

  it('is 0 without a way to go and infinite beyond the rest point', () => {
    const rate = (y: number) => 1 - y;
    expect(relaxationTime(rate, 0.5, 0.5, 1)).toBe(0);
    expect(relaxationTime(rate, 0.5, 1, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(relaxationTime(rate, 0.5, 2, 1)).toBe(Number.POSITIVE_INFINITY);
  });
});
