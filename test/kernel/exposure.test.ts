import { describe, expect, it } from 'vitest';
import { implantLevel, occupationalLevel, publicLevel } from '../../src/kernel/exposure.ts';

const MU0 = 4e-7 * Math.PI;

/** Over the whole range and beyond, a few a decade. */
const FREQUENCIES = Array.from({ length: 141 }, (_, i) => 10 ** (i / 20));

describe('the reference levels for people', () => {
  it('are 1 mT and 0.2 mT at mains frequencies (ICNIRP 2010, quoted at second hand)', () => {
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

  it('are flat from 3 to 100 kHz', () => {
    expect(occupationalLevel(5e4)).toBe(1e-4);
    expect(publicLevel(5e4)).toBe(2.7e-5);
  });

  it('from 100 kHz on are the lower of ICNIRP 2010 and ICNIRP 2020: 4.9 and 2.2 A/m over the frequency in MHz', () => {
    expect(occupationalLevel(1e6)).toBeCloseTo(4.9 * MU0, 12);
    expect(publicLevel(1e6)).toBeCloseTo(2.2 * MU0, 12);
    expect(publicLevel(1e7)).toBeCloseTo(0.22 * MU0, 12);
    // 2.2 / 0.1 A/m are 27.6 uT: at 100 kHz the level of 2010 is still the lower one
    expect(publicLevel(1e5)).toBe(2.7e-5);
    // below any level of ICNIRP 2020 for a part of the body (10.8 and 4.9 A/m over MHz, seen quoted)
    for (const frequency of FREQUENCIES.filter((each) => each >= 1e5)) {
      expect(occupationalLevel(frequency)).toBeLessThan((10.8e6 / frequency) * MU0);
      expect(publicLevel(frequency)).toBeLessThan((4.9e6 / frequency) * MU0);
    }
  });

  it('are not given below 1 Hz and above 10 MHz', () => {
    for (const level of [occupationalLevel, publicLevel, implantLevel]) {
      expect(level(0.5)).toBeNaN();
      expect(level(1.001e7)).toBeNaN();
      expect(level(1)).toBeGreaterThan(0);
      expect(level(1e7)).toBeGreaterThan(0);
    }
  });
});

describe('the level for implants', () => {
  it('is that of 1999/519/EC: 0.1 mT at 50 Hz, 6.25 uT from 0.8 to 150 kHz (quoted at second hand)', () => {
    expect(implantLevel(50)).toBeCloseTo(0.1e-3, 15);
    expect(implantLevel(60)).toBeCloseTo(83.3e-6, 7);
    for (const frequency of [800, 3000, 25e3, 149e3]) expect(implantLevel(frequency)).toBe(6.25e-6);
    expect(implantLevel(1e6)).toBeCloseTo(0.92e-6, 15);
  });

  it('is never laxer than the public level, which is never laxer than that for people at work', () => {
    for (const frequency of FREQUENCIES) {
      expect(implantLevel(frequency)).toBeLessThanOrEqual(publicLevel(frequency));
      expect(publicLevel(frequency)).toBeLessThan(occupationalLevel(frequency));
    }
  });
});
