/** J0 and J1 at one argument. */
export interface BesselPair {
  j0: number;
  j1: number;
}

/** Largest argument of `besselJ01`. */
export const J01_TABLE_END = 128;

/**
 * J0(x) and J1(x) for 0 <= x <= J01_TABLE_END, from a table 1/32 apart and Taylor's series about the nearest entry
 * (J0' = -J1, J1' = J0 - J1/x, J1'' = -J1 - J1'/x + J1/x^2).
 * Accuracy: 4e-7 absolute in J1, 1e-9 in J0; relative for neither.
 * Source: Abramowitz & Stegun (1964), 9.1.27-9.1.30; table by Miller's backward recurrence, 9.12, example 1.
 */
export function besselJ01(x: number, out: BesselPair): void {
  const cell = (x * PER_UNIT + 0.5) | 0;
  const s = x - cell * STEP;
  const i = 4 * cell;
  if (Number.isNaN(TABLE[i]!)) fillEntry(cell);
  const j1 = TABLE[i + 1]!;
  const slope = TABLE[i + 2]!;
  const curvature = TABLE[i + 3]!;
  out.j0 = TABLE[i]! - s * (j1 + s * (0.5 * slope + s * (1 / 6) * curvature));
  out.j1 = j1 + s * (slope + s * 0.5 * curvature);
}

/** Rows of the two functions. */
export interface BesselRows {
  readonly j0: Float64Array;
  readonly j1: Float64Array;
}

/**
 * factor J0(scale x) and factor J1(scale x) of a stretch of arguments, in one loop without a call: see besselJ01.
 */
export function besselJ01Times(
  x: Float64Array,
  scale: number,
  factor: Float64Array,
  from: number,
  to: number,
  { j0, j1 }: BesselRows,
): void {
  const table = TABLE;
  for (let n = from; n < to; n++) {
    const argument = x[n]! * scale;
    const cell = (argument * PER_UNIT + 0.5) | 0;
    const s = argument - cell * STEP;
    const i = 4 * cell;
    if (Number.isNaN(table[i]!)) fillEntry(cell);
    const value = table[i + 1]!;
    const slope = table[i + 2]!;
    const curvature = table[i + 3]!;
    const f = factor[n]!;
    j0[n] = f * (table[i]! - s * (value + s * (0.5 * slope + s * (1 / 6) * curvature)));
    j1[n] = f * (value + s * (slope + s * 0.5 * curvature));
  }
}

const PER_UNIT = 32;
const STEP = 1 / PER_UNIT;

/** Per entry: J0, J1, J1', J1''; each is filled when it is first read, since one design needs some hundreds of 4097. */
const TABLE = new Float64Array(4 * (J01_TABLE_END * PER_UNIT + 1)).fill(Number.NaN);
TABLE.set([1, 0, 0.5, 0]);

function fillEntry(cell: number): void {
  const x = cell * STEP;
  let above = 0;
  let here = 1e-300;
  let evens = 0;
  for (let n = 2 * Math.ceil((x + 20 + 12 * Math.cbrt(x)) / 2); n > 0; n--) {
    if (n % 2 === 0) evens += here;
    const below = (2 * n * here) / x - above;
    above = here;
    here = below;
    if (Math.abs(here) > 1e250) {
      here *= 1e-250;
      above *= 1e-250;
      evens *= 1e-250;
    }
  }
  const norm = here + 2 * evens;
  const j0 = here / norm;
  const j1 = above / norm;
  const slope = j0 - j1 / x;
  const i = 4 * cell;
  TABLE[i] = j0;
  TABLE[i + 1] = j1;
  TABLE[i + 2] = slope;
  TABLE[i + 3] = -j1 - slope / x + j1 / (x * x);
}
