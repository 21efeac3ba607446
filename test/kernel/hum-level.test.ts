import { describe, expect, it } from 'vitest';
import { aWeighting, humLevel } from '../../src/kernel/hum-level.ts';

describe('A-weighting', () => {
  // IEC 61672-1, table 3 (from memory): frequencies are 1000 Hz x 10^(n/10), levels are rounded to 0.1 dB
  it.each([
    [-15, -39.4],
    [-13, -30.2],
    [-10, -19.1],
    [-7, -10.9],
    [-3, -3.2],
    [0, 0],
    [3, 1.2],
    [6, 1],
    [9, -1.1],
    [12, -6.6],
  ])('is as tabulated %d tenths of a decade from 1 kHz: %d dB', (tenths, decibels) => {
    expect(Math.abs(aWeighting(1000 * 10 ** (tenths / 10)) - decibels)).toBeLessThan(0.055);
  });
});

describe('the level of a hum', () => {
  it('is that of a piston in a wall: 1 Pa rms is 94 dB', () => {
    // peak pressure 1.2 (2 pi 1000)^2 X 0.01 / 2 = sqrt(2) Pa
    const amplitude = (2 * Math.SQRT2) / (1.2 * (2 * Math.PI * 1000) ** 2 * 0.01);
    // 20 log10(1 / 20e-6); A-weighting is 0 at 1 kHz to 0.01 dB
    expect(humLevel(amplitude, 0.1, 1000)).toBeCloseTo(93.98, 1);
  });

  it('grows by 6 dB as the motion doubles and by 12 as the radius does', () => {
    const level = humLevel(1e-5, 0.1, 100);
    expect(humLevel(2e-5, 0.1, 100) - level).toBeCloseTo(6.0206, 4);
    expect(humLevel(1e-5, 0.2, 100) - level).toBeCloseTo(12.0412, 4);
  });

  it('fades beyond hearing', () => {
    const at = (frequency: number) => humLevel(1e-9, 0.1, frequency) - 40 * Math.log10(frequency);
    expect(at(50_000)).toBeLessThan(at(1000) - 20);
  });
});
