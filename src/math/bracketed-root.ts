/**
 * Root of a continuous function between `low` and `high`, where it has values of opposite sign (or zero): inverse
 * quadratic interpolation while that is safe, bisection else.
 *
 * @param f asked about 8 times for a smooth function
 * @param fLow f(low), fHigh f(high)
 * @param tolerance absolute width of the last bracket (at least a few units in the last place of the root)
 * @returns NaN when the two values have the same sign or one of them is NaN
 *
 * Source: T. R. Chandrupatla, Adv. Eng. Softw. 28 (1997) 145-149, doi:10.1016/S0965-9978(96)00051-8 (from memory).
 */
export function bracketedRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  fLow: number,
  fHigh: number,
  tolerance: number,
): number {
  if (fLow === 0) return low;
  if (fHigh === 0) return high;
  if (!(fLow < 0 !== fHigh < 0) || Number.isNaN(fLow) || Number.isNaN(fHigh)) return Number.NaN;
  let a = high;
  let fa = fHigh;
  let b = low;
  let fb = fLow;
  let t = fLow / (fLow - fHigh);
  for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
    const x = b + t * (a - b);
    const fx = f(x);
    if (fx === 0) return x;
    let c: number;
    let fc: number;
    if (fx < 0 === fb < 0) {
      c = b;
      fc = fb;
    } else {
      c = a;
      fc = fa;
      a = b;
      fa = fb;
    }
    b = x;
    fb = fx;
    // root between a and b, the newest; c the oldest
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const least = (tolerance / 2 + 2 ** -52 * Math.abs(best)) / Math.abs(a - b);
    if (least > 0.5) return best;
    const xi = (b - a) / (c - a);
    const phi = (fb - fa) / (fc - fa);
    const safe = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    t = safe
      ? (fb / (fa - fb)) * (fc / (fa - fc)) + (((c - b) / (a - b)) * (fb / (fc - fb)) * fa) / (fc - fa)
      : 0.5;
    // b + t (a - b) is the next point
    t = Math.min(1 - least, Math.max(least, t));
  }
  return b;
}

/** Bisection alone halves any bracket of doubles in fewer. */
const MAX_ITERATIONS = 200;
