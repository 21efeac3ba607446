import { describe, expect, it } from 'vitest';
import { occupationalLevel, publicLevel } from '../../src/kernel/exposure.ts';

describe('the ICNIRP 2010 reference levels', () => {
  it('are 1 mT and 0.2 mT at mains frequencies (quoted at second hand)', () => {
    for (const frequency of [50, 60]) {
      expect(occupationalLevel(frequency)).toBe(1e-3);
      expect(publicLevel(frequency)).toBe(0.2e-3);
    }
  });

  it('fall as 0.3/f and 0.08/f up to 3 kHz and do not jump on the way from 25 Hz', () => {
    expect(occupationalLevel(1000)).toBeCloseTo(0.3e-3, 12);
    expect(publicLevel(1000)).toBeCloseTo(0.08e-3, 12);
    for (const edge of [25, 300, 400, 3000]) {
      for (const level of [occupationalLevel, publicLevel]) {
        // 0.08 / 3000 is 26.7 uT, which the guideline rounds to 27
        expect(level(edge * (1 + 1e-9)) / level(edge * (1 - 1e-9))).toBeCloseTo(1, 1);
      }
    }
  });

  it('are flat to 100 kHz and not given beyond, nor below 1 Hz', () => {
    expect(occupationalLevel(5e4)).toBe(1e-4);
    expect(publicLevel(5e4)).toBe(2.7e-5);
    expect(publicLevel(1e5 * 1.001)).toBeNaN();
    expect(occupationalLevel(0.5)).toBeNaN();
  });
});
