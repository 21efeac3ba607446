import { describe, expect, it } from 'vitest';
import {
  asymmetricPeakFactor,
  BREAKER,
  breakerTimes,
  magneticTrip,
  TRIPS,
} from '../../src/kernel/breaker.ts';

const { POSITIVE_INFINITY: EVER, NaN: UNSAID } = Number;

function at(kind: keyof typeof BREAKER, rating: number, current: number): [holds: number, trips: number] {
  const out = { holds: 0, blows: 0 };
  breakerTimes(BREAKER[kind], rating, current, out);
  return [out.holds, out.blows];
}

describe('a miniature circuit breaker', () => {
  it('has the gates of IEC 60898-1 Table 7 (from memory): 1.13, 1.45, 2.55, and 3 to 5, 5 to 10, 10 to 20', () => {
    expect(at('B', 16, 16)).toEqual([EVER, EVER]);
    expect(at('B', 16, 18)).toEqual([3600, EVER]);
    expect(at('B', 16, 20)).toEqual([1, UNSAID]);
    expect(at('B', 16, 23.2)).toEqual([1, 3600]);
    expect(at('C', 16, 40.8)).toEqual([1, 60]);
    expect(at('C', 63, 200)).toEqual([0.1, 120]);
    expect(at('B', 16, 48)).toEqual([0.1, 60]);
    expect(at('B', 16, 50)).toEqual([0, 60]);
    expect(at('B', 16, 80)).toEqual([0, 0.1]);
    expect(at('C', 16, 80)).toEqual([0.1, 60]);
    expect(at('C', 16, 160)).toEqual([0, 0.1]);
    expect(at('D', 16, 319)).toEqual([0, 60]);
    expect(at('D', 16, 320)).toEqual([0, 0.1]);
    expect(at('B', 160, 10)).toEqual([UNSAID, UNSAID]);
  });

  it('sees a switch-on by its peak', () => {
    const peak = (times: number) => times * Math.SQRT2 * 16;
    expect(magneticTrip(BREAKER.B, 16, peak(2.9))).toBe(TRIPS.no);
    expect(magneticTrip(BREAKER.B, 16, peak(4))).toBe(TRIPS['may be']);
    expect(magneticTrip(BREAKER.B, 16, peak(5))).toBe(TRIPS.yes);
    expect(magneticTrip(BREAKER.D, 16, peak(5))).toBe(TRIPS.no);
  });
});

describe('the first asymmetric peak', () => {
  it.each([0.01, 0.05, 0.1, 0.3, 0.6, 1])(
    'is that of the circuit switched on at the worst instant: R/X = %d',
    (ratio) => {
      // i(t) / amplitude = sin(wt + a - p) - sin(a - p) e^{-wt R/X}, the largest over a and t
      const phase = Math.atan(1 / ratio);
      let largest = 0;
      for (let a = 0; a < Math.PI; a += 0.005) {
        for (let t = 0; t < 2 * Math.PI; t += 0.01) {
          const i = Math.sin(t + a - phase) - Math.sin(a - phase) * Math.exp(-t * ratio);
          largest = Math.max(largest, Math.abs(i));
        }
      }
      expect(Math.abs(asymmetricPeakFactor(ratio, 1) / largest - 1)).toBeLessThan(0.02);
    },
  );
});
