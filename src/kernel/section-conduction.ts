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
 * Domain: s from LEAST_BENT to MOST_BENT; others are taken as these. Accuracy: 1e-6.
 * Source: derived afresh; s = 0: H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., sect. 3.14 (from
 * memory). The mean as a node between two faces: P. H. Mellor, D. Roberts, D. R. Turner, IEE Proc. B 138 (1991) 205-218
 * (from memory).
 */
export interface FaceFactors {
  /** s. */
  bent: number;
  /** c1, c2. */
  own: number;
  other: number;
}

export function createFaceFactors(): FaceFactors {
  return { bent: 0.5, own: 0.5, other: 0.5 };
}

/** For one cooled face (pi/2)^2 is where the face comes to absolute zero. */
const MOST_BENT = 2.4;

/** The flattest profile that is told from a flat one: layers at the faces are then a thirtieth of the section. */
const LEAST_BENT = -1000;

/** Both factors of `bent` at a time from a table over the root of what s lacks to CENTRE, a cubic a cell. */
export function faceFactors(out: FaceFactors): void {
  const t = Math.max(LEAST_BENT, Math.min(out.bent, MOST_BENT));
  const u = (Math.sqrt(CENTRE - t) - FIRST) * PER_UNIT;
  const cell = u | 0;
  const v = u - cell;
  const i = COLUMNS * cell;
  out.own = TABLE[i]! + v * (TABLE[i + 1]! + v * (TABLE[i + 2]! + v * TABLE[i + 3]!));
  out.other = TABLE[i + 4]! + v * (TABLE[i + 5]! + v * (TABLE[i + 6]! + v * TABLE[i + 7]!));
}

const SERIES = 0.05;
const FIRST = 0.5;
const CENTRE = MOST_BENT + FIRST * FIRST;
const PER_UNIT = 4;
const CELLS = Math.ceil((Math.sqrt(CENTRE - LEAST_BENT) - FIRST) * PER_UNIT) + 1;
const COLUMNS = 8;
const TABLE = makeTable();

/** Cubics through four Chebyshev points of each cell. */
function makeTable(): Float64Array {
  const table = new Float64Array(COLUMNS * CELLS);
  const places = [0, 1, 2, 3].map((i) => (1 - Math.cos((Math.PI * (i + 0.5)) / 4)) / 2);
  for (let cell = 0; cell < CELLS; cell++) {
    const exact = places.map((place) => exactFactors(CENTRE - (FIRST + (cell + place) / PER_UNIT) ** 2));
    table.set(
      cubicThrough(
        places,
        exact.map(({ own }) => own),
      ),
      COLUMNS * cell,
    );
    table.set(
      cubicThrough(
        places,
        exact.map(({ other }) => other),
      ),
      COLUMNS * cell + 4,
    );
  }
  return table;
}

function exactFactors(s: number): { own: number; other: number } {
  if (Math.abs(s) < SERIES) {
    return {
      own: 1 / 3 + s * (1 / 45 + s * (2 / 945 + s * (1 / 4725 + (s * 2) / 93555))),
      other: 1 / 6 + s * (7 / 360 + s * (31 / 15120 + s * (127 / 604800 + (s * 73) / 3421440))),
    };
  }
  const x = Math.sqrt(Math.abs(s));
  if (s > 0) return { own: 1 / s - 1 / (x * Math.tan(x)), other: 1 / (x * Math.sin(x)) - 1 / s };
  return { own: 1 / (x * Math.tanh(x)) + 1 / s, other: -1 / s - 1 / (x * Math.sinh(x)) };
}

/** Coefficients of powers, by Newton's divided differences. */
function cubicThrough(x: readonly number[], values: readonly number[]): number[] {
  const c = [...values];
  for (let order = 1; order < c.length; order++) {
    for (let n = c.length - 1; n >= order; n--) c[n] = (c[n]! - c[n - 1]!) / (x[n]! - x[n - order]!);
  }
  for (let first = c.length - 2; first >= 0; first--) {
    for (let n = first; n < c.length - 1; n++) c[n] = c[n]! - x[first]! * c[n + 1]!;
  }
  return c;
}

/**
 * Hottest place minus mean, K: inside the slab where both faces give off heat, at a face where heat comes in.
 * @param first f1, @param second f2 W/m2, outward
 * @param resistance h / k, K m2/W
 */
export function hottestAboveMean(
  first: number,
  second: number,
  resistance: number,
  factors: FaceFactors,
): number {
  const { own, other } = factors;
  if (first > 0 && second > 0) return resistance * interiorPeak(first, second, factors);
  return resistance * Math.max(other * second - own * first, other * first - own * second, 0);
}

function interiorPeak(first: number, second: number, { bent, own, other }: FaceFactors): number {
  const s = Math.min(bent, MOST_BENT);
  const sum = first + second;
  if (Math.abs(s) < STRAIGHT) return (first * first) / (2 * sum) - (2 * first - second) / 6;
  if (s > 0) {
    // cot(x) / x and 1 / (x sin x) stand in the factors
    const perS = 1 / s;
    const level = second * (other + perS) + first * (perS - own);
    return Math.sqrt(first * first * perS + level * level) - sum * perS;
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
