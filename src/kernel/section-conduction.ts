import { decay } from '../math/decay.ts';

/**
 * Conduction across a winding's section in one direction: a slab of thickness h in which heat arises, f1 and f2 W/m2 leave
 * through its faces, and what arises in a place differs from the mean by s k/h^2 (T - Tmean): more where resistivity rises
 * with temperature, less where the place is also cooled across the other direction, as a fin is. Then
 *   T'' = -(q / k) - (s / h^2)(T - Tmean),
 * solved by sines and cosines of x z/h with x^2 = s (hyperbolic ones where s < 0). Below the mean lie the faces by
 *   (h/k)(c1 f1 - c2 f2) and (h/k)(c1 f2 - c2 f1),
 *   c1 = 1/x^2 - cot(x)/x = 1/3 + s/45 + ...,   c2 = 1/(x sin x) - 1/x^2 = 1/6 + 7 s/360 + ...
 *
 * s = 0 gives the parabolas of every textbook: one cooled face: hottest minus face q h^2/(2k), mean two thirds of it; two
 * cooled faces: q h^2/(8k).
 * Domain: s below MOST_BENT; a larger one is taken as that. Accuracy: 0.4 %.
 * Source: derived afresh; s = 0: H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., sect. 3.14 (from
 * memory). The mean as a node between two faces: P. H. Mellor, D. Roberts, D. R. Turner, IEE Proc. B 138 (1991) 205-218
 * (from memory).
 */
export interface FaceFactors {
  own: number;
  other: number;
}

/** For one cooled face (pi/2)^2 is where the face comes to absolute zero. */
export const MOST_BENT = 2.4;

/** Below this the hyperbolic form takes over from the series. */
const SERIES = -0.8;

export function faceFactors(s: number, out: FaceFactors): void {
  if (s < SERIES) {
    const y = Math.sqrt(-s);
    const fall = decay(y);
    const square = fall * fall;
    out.own = (1 + square) / ((1 - square) * y) + 1 / s;
    out.other = -1 / s - (2 * fall) / ((1 - square) * y);
    return;
  }
  const t = Math.min(s, MOST_BENT);
  out.own = 1 / 3 + t * (1 / 45 + t * (2 / 945 + t * (1 / 4725)));
  out.other = 1 / 6 + t * (7 / 360 + t * (31 / 15120 + t * (127 / 604800)));
}

/**
 * Hottest place minus mean, K: inside the slab where both faces give off heat, at a face where heat comes in.
 * @param first f1, @param second f2 W/m2, outward
 * @param resistance h / k, K m2/W
 * @param factors of the same s
 */
export function hottestAboveMean(
  first: number,
  second: number,
  s: number,
  resistance: number,
  factors: FaceFactors,
): number {
  const { own, other } = factors;
  if (first > 0 && second > 0) return resistance * interiorPeak(first, second, Math.min(s, MOST_BENT));
  return resistance * Math.max(other * second - own * first, other * first - own * second, 0);
}

function interiorPeak(first: number, second: number, s: number): number {
  const sum = first + second;
  if (Math.abs(s) < STRAIGHT) return (first * first) / (2 * sum) - (2 * first - second) / 6;
  if (s > 0) {
    const x = Math.sqrt(s);
    const level = (second + first * Math.cos(x)) / (x * Math.sin(x));
    return Math.sqrt((first * first) / s + level * level) - sum / s;
  }
  const y = Math.sqrt(-s);
  // over e^y: cosh and sinh are (1 +- e^{-2y}) / 2
  const fall = decay(y);
  const square = fall * fall;
  const level = (2 * second * fall + first * (1 + square)) / (y * (1 - square));
  return -Math.sqrt(Math.max(0, level * level + (first * first) / s)) - sum / s;
}

/** Below this the bent profile differs from the parabola by less than 1e-5. */
const STRAIGHT = 1e-4;
