/**
 * Roots that the laws of heat take by the dozen for every design, from small tables: the nearest entry, and the binomial
 * series for what is left. Three times as fast as the engine's own cube root or power, which are calls; inlined, these
 * are not.
 */

/** Squares of 1 to 48 come from the tables, others from the engine. */
const TABLED = 48;
const PER_UNIT = 8;
const STEP = 1 / PER_UNIT;
const INVERSE = Float64Array.from({ length: TABLED * PER_UNIT + 1 }, (_, i) => PER_UNIT / i);
const FIFTHS = Float64Array.from({ length: TABLED * PER_UNIT + 1 }, (_, i) => (i * STEP) ** 0.4);
const SIXTHS = Float64Array.from({ length: TABLED * PER_UNIT + 1 }, (_, i) => Math.cbrt(i * STEP));

/**
 * x^(1/5) of x = s^2, s >= 0.
 * Accuracy: 3e-8 relative.
 */
export function fifthRootOfSquare(s: number): number {
  if (!(s >= 1 && s < TABLED)) return s ** 0.4;
  const i = (s * PER_UNIT + 0.5) | 0;
  const r = s * INVERSE[i]! - 1;
  return FIFTHS[i]! * (1 + r * (0.4 - r * (0.12 - r * (0.064 - r * 0.0416))));
}

/**
 * x^(1/6) of x = s^2, s >= 0.
 * Accuracy: 3e-8 relative.
 */
export function sixthRootOfSquare(s: number): number {
  if (!(s >= 1 && s < TABLED)) return Math.cbrt(s);
  const i = (s * PER_UNIT + 0.5) | 0;
  const r = s * INVERSE[i]! - 1;
  return SIXTHS[i]! * (1 + r * (1 / 3 - r * (1 / 9 - r * (5 / 81 - r * (10 / 243)))));
}

const PARTS = 16;
const OVER_ONE = Float64Array.from({ length: PARTS + 1 }, (_, i) => PARTS / (PARTS + i));
const CUBE_ROOTS = Float64Array.from({ length: PARTS + 1 }, (_, i) => Math.cbrt(1 + i / PARTS));

/**
 * (a^3 + b^3)^(1/3) of a, b >= 0, not both 0.
 * Accuracy: 2e-9 relative.
 */
export function cubicSum(a: number, b: number): number {
  const larger = Math.max(a, b);
  const t = Math.min(a, b) / larger;
  const u = t * t * t;
  const i = (u * PARTS + 0.5) | 0;
  const r = (1 + u) * OVER_ONE[i]! - 1;
  return larger * CUBE_ROOTS[i]! * (1 + r * (1 / 3 - r * (1 / 9 - r * (5 / 81 - r * (10 / 243)))));
}
