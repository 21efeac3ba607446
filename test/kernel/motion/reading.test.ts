import { describe, expect, it } from 'vitest';
import { readBounce } from '../../../src/kernel/motion/bounce.ts';
import { fallSpeed } from '../../../src/kernel/motion/fall-speed.ts';
import { settlingTime } from '../../../src/kernel/motion/settling.ts';

/** 3 Hz about 10 mm, growing at `rate`, with the supply's ripple of 20 um at 100 Hz. */
function wave(rate: number, seconds: number, size = 2e-3): Float64Array {
  return Float64Array.from({ length: Math.round(seconds * 1e4) }, (_, i) => {
    const t = i / 1e4;
    const bounce = size * Math.exp(rate * t) * Math.cos(2 * Math.PI * 3 * t);
    return 0.01 + bounce + 20e-6 * Math.cos(2 * Math.PI * 100 * t + 0.3);
  });
}

describe('reading a bounce', () => {
  it('finds frequency and growth through the ripple, of growing and dying ones', () => {
    for (const rate of [-1, -0.1, 0, 0.05]) {
      const { frequency, growth, peaks } = readBounce(wave(rate, 4), 1e-4, 50);
      expect(frequency).toBeCloseTo(3, 2);
      expect(growth).toBeCloseTo(rate, 2);
      // the first is where the curve begins
      expect(peaks[1]! - 0.01).toBeCloseTo(2e-3 * Math.exp(rate / 3), 4);
    }
  });

  it('has nothing to tell of a curve that does not turn', () => {
    const straight = Float64Array.from({ length: 5000 }, (_, i) => i * 1e-6);
    const { frequency, growth, peaks } = readBounce(straight, 1e-4, 50);
    expect([frequency, growth, peaks.length]).toEqual([Number.NaN, Number.NaN, 0]);
    expect(readBounce([], 1e-4, 50).peaks).toEqual([]);
  });
});

describe('settling', () => {
  it('is when the envelope has come within the tolerance', () => {
    // 2 mm e^{-t} = 1 mm at ln 2; the last swing beyond it comes a little before
    const settled = settlingTime(wave(-1, 4), 1e-4, 0.01, 1e-3, 0.5);
    expect(settled).toBeLessThan(Math.log(2) + 0.05);
    expect(settled).toBeGreaterThan(Math.log(2) - 0.2);
  });

  it('never comes for what swings on, and for what has been within for a moment alone', () => {
    expect(settlingTime(wave(0, 4), 1e-4, 0.01, 1e-3, 0.5)).toBe(Number.POSITIVE_INFINITY);
    expect(settlingTime([1, 1, 1, 0, 0], 0.1, 0, 0.5, 0.5)).toBe(Number.POSITIVE_INFINITY);
    expect(settlingTime([1, 0, 0, 0, 0, 0, 0], 0.1, 0, 0.5, 0.5)).toBeCloseTo(0.1, 12);
  });
});

describe('fall against drag', () => {
  it('is free without drag, and ends at m g / c', () => {
    expect(fallSpeed(2, 0, 0.02, 9.81)).toBeCloseTo(Math.sqrt(2 * 9.81 * 0.02), 14);
    expect(fallSpeed(2, 50, 100, 9.81)).toBeCloseTo((2 * 9.81) / 50, 12);
    expect(fallSpeed(2, 1e-12, 0.02, 9.81)).toBeCloseTo(Math.sqrt(2 * 9.81 * 0.02), 10);
  });

  it('agrees with steps of the equation of motion', () => {
    const [mass, drag, height, step] = [1.3, 4, 0.3, 1e-6];
    let fallen = 0;
    let speed = 0;
    while (fallen < height) {
      const middle = speed + (step / 2) * (9.81 - (drag / mass) * speed);
      fallen += step * middle;
      speed += step * (9.81 - (drag / mass) * middle);
    }
    expect(fallSpeed(mass, drag, height, 9.81)).toBeCloseTo(speed, 5);
  });
});
