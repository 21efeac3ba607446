/** Two ends, and the function there: fLow = f(low), fHigh = f(high). */
export interface Bracket {
  low: number;
  high: number;
  fLow: number;
  fHigh: number;
}

/**
 * Root of a function that falls from `low` to `high` about as f(low) - c (x - low)^p, as heat balances do: the law is put
 * through the two points last evaluated (at first the far end and `trial`), and where it meets zero is the next. That
 * is the secant method on logarithms, on which such functions are nearly straight. A step that would leave the bracket
 * halves it instead, so that every continuous function is solved that has a root.
 *
 * @param f evaluated about 5 times
 * @param trial where f is evaluated first, between the two
 * @param tolerance length of the last step; what is left is a thousandth of it where the law holds to a few per cent
 * @returns NaN unless fLow >= 0 >= fHigh; Infinity where f has no value (NaN) on the way: never the last x that was tried
 */
export function fallingRoot(
  f: (x: number) => number,
  { low, high, fLow, fHigh }: Bracket,
  trial: number,
  tolerance: number,
): number {
  if (fLow === 0) return low;
  if (fHigh === 0) return high;
  if (!(fLow > 0 && fHigh < 0)) return Number.NaN;
  let left = low;
  let right = high;
  let rise = high - low;
  let fall = fLow - fHigh;
  let x = trial;
  for (let iteration = 0; ; iteration++) {
    const fx = f(x);
    if (Number.isNaN(fx)) return Number.POSITIVE_INFINITY;
    if (fx > 0) left = x;
    else right = x;
    const riseBefore = rise;
    const fallBefore = fall;
    rise = x - low;
    fall = fLow - fx;
    const perPower = Math.log(riseBefore / rise) / Math.log(fallBefore / fall);
    let next = low + rise * Math.exp(Math.log(fLow / fall) * perPower);
    if (fallBefore > 0 && Math.abs(next - x) <= tolerance) return next;
    if (!(next > left && next < right) || iteration >= SECANTS) {
      next = (left + right) / 2;
      // no double lies between: the bracket is as narrow as can be
      if (right - left <= tolerance || next <= left || next >= right) return next;
    }
    x = next;
  }
}

/** Steps by the law; a function that resists them is halved from then on, which ends for every function. */
const SECANTS = 100;
