import { describe, expect, it } from 'vitest';
import { createFaceFactors, faceFactors, hottestAboveMean } from '../../src/kernel/section-conduction.ts';

const factors = createFaceFactors();

function fill(s: number): void {
  factors.bent = s;
  faceFactors(factors);
}

/** Profile of T'' = -q - s T between given fluxes out of both faces, h = k = 1, mean 0: finite volumes, eliminated. */
function profile(first: number, second: number, s: number, cells = 2000): Float64Array {
  const d = 1 / cells;
  const q = first + second;
  // below T[i - 1] - (2 - s d^2) T[i] + T[i + 1] = -q d^2; at the ends one neighbour and a flux
  const factor = new Float64Array(cells);
  const T = new Float64Array(cells);
  for (let i = 0; i < cells; i++) {
    const neighbours = i === 0 || i === cells - 1 ? 1 : 2;
    const flux = i === 0 ? second : i === cells - 1 ? first : 0;
    const diagonal = s * d * d - neighbours - (i > 0 ? factor[i - 1]! : 0);
    factor[i] = 1 / diagonal;
    T[i] = (flux * d - q * d * d - (i > 0 ? T[i - 1]! : 0)) / diagonal;
  }
  for (let i = cells - 2; i >= 0; i--) T[i] = T[i]! - factor[i]! * T[i + 1]!;
  return T;
}

describe('faceFactors', () => {
  it('gives the parabola of one cooled face: hottest over face q h^2 / 2k, the mean two thirds of that', () => {
    fill(0);
    const flux = 1; // q h with h = k = 1
    const meanOverFace = factors.own * flux;
    const hottestOverMean = hottestAboveMean(flux, 0, 1, factors);
    // the table of factors is good to 1e-6
    expect(Math.abs(meanOverFace + hottestOverMean - 1 / 2)).toBeLessThan(1e-6);
    expect(Math.abs(meanOverFace / (meanOverFace + hottestOverMean) - 2 / 3)).toBeLessThan(1e-6);
    // the other face, insulated, is the hottest place
    expect(Math.abs(factors.other * flux - hottestOverMean)).toBeLessThan(1e-6);
  });

  it('gives the parabola of two cooled faces: hottest over face q h^2 / 8k', () => {
    fill(0);
    const flux = 1 / 2;
    const meanOverFace = (factors.own - factors.other) * flux;
    // the table of factors is good to 1e-6
    expect(Math.abs(meanOverFace + hottestAboveMean(flux, flux, 1, factors) - 1 / 8)).toBeLessThan(1e-6);
  });

  it.each([-200, -20, -3, -0.5, 0.4, 1.5])('follows the profile that s = %d bends', (s) => {
    fill(s);
    for (const [first, second] of [
      [1, 0],
      [0.6, 0.4],
      [1, 1],
    ] as const) {
      const T = profile(first, second, s);
      const ends = [T[0]!, T.at(-1)!];
      const hottest = Math.max(...T);
      // 0.4 % is claimed; cells of 1/2000 err by as much as their half
      const size = Math.max(...T) - Math.min(...T);
      const close = 0.004 * size + 1e-3;
      expect(Math.abs(-(factors.own * first - factors.other * second) - ends[1]!)).toBeLessThan(close);
      expect(Math.abs(-(factors.own * second - factors.other * first) - ends[0]!)).toBeLessThan(close);
      expect(Math.abs(hottestAboveMean(first, second, 1, factors) - hottest)).toBeLessThan(close);
    }
  });

  it('passes from the series to the hyperbolic form without a step', () => {
    const just = (s: number) => {
      fill(s);
      return [factors.own, factors.other];
    };
    const [below, above] = [just(-0.8 - 1e-9), just(-0.8 + 1e-9)];
    expect(Math.abs(below![0]! / above![0]! - 1)).toBeLessThan(1e-3);
    expect(Math.abs(below![1]! / above![1]! - 1)).toBeLessThan(4e-3);
  });
});
