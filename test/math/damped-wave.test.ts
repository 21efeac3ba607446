import { describe, expect, it } from 'vitest';
import { dampedWaves, WAVE_END, wave } from '../../src/math/damped-wave.ts';

/** p from 1e-9 to the end of the table, each with q at nothing, a third and all of p. */
const ENDS = Array.from({ length: 400 }, (_, i) => (WAVE_END / 2) * 10 ** ((i - 399) / 40));
const WAVES = ENDS.flatMap((p) => [0, p / 3, p].map((q) => ({ p, q })));

describe('damped waves', () => {
  it('agree with the engine to 1e-14, relative in the fall and the sine also where they are small', () => {
    const scale = 0.25;
    const count = WAVES.length;
    const p = Float64Array.from(WAVES, (wave) => wave.p / scale);
    const q = Float64Array.from(WAVES, (wave) => wave.q / scale);
    const [fall, sin, cos] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
    dampedWaves(p, q, scale, count, { fall, sin, cos });
    WAVES.forEach((wave, i) => {
      const expected = -Math.expm1(-2 * wave.p);
      // the accuracy that the function promises; phases up to 14 are themselves rounded to 2e-15
      expect(Math.abs(fall[i]! - expected)).toBeLessThanOrEqual(1e-14 * expected);
      expect(Math.abs(sin[i]! - Math.sin(wave.q))).toBeLessThanOrEqual(1e-14 * Math.min(1, wave.q));
      expect(Math.abs(cos[i]! - Math.cos(wave.q))).toBeLessThanOrEqual(1e-14);
    });
  });
});

describe('a wave', () => {
  it('agrees with the engine to the rounding of its phase', () => {
    for (let i = 0; i < 20000; i++) {
      const x = i * 0.0137;
      const expected = 0.7 * Math.cos(x) - 0.4 * Math.sin(x);
      expect(Math.abs(wave(x, 0.7, -0.4) - expected)).toBeLessThanOrEqual(1e-15 * (1 + x));
    }
  });
});
