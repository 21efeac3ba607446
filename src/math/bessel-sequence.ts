/**
 * Bessel functions J_0(x) to J_{count-1}(x) at one argument.
 * Miller's backward recurrence J_{n-1} = (2n/x) J_n - J_{n+1}, normalised by J_0 + 2 (J_2 + J_4 + ...) = 1.
 *
 * @param x argument, x >= 0
 * @param out receives J_n(x) in out[n]
 * Accuracy: 1e-14 absolute; orders far above x underflow to 0.
 * Source: Abramowitz & Stegun 9.12, example 1; DLMF 3.6(v).
 */
export function besselSequence(x: number, count: number, out: Float64Array): void {
  if (x < 1e-8) {
    out.fill(0, 0, count);
    out[0] = 1;
    if (count > 1) out[1] = x / 2;
    return;
  }
  const top = Math.max(count, x);
  const start = 2 * Math.ceil((top + 12 + 9 * Math.cbrt(top)) / 2);
  const step = 2 / x;
  let above = 0;
  let here = 1e-280;
  let evens = 0;
  for (let n = start; n >= 0; n--) {
    if (n < count) out[n] = here;
    if ((n & 1) === 0) evens += here;
    if (n === 0) break;
    const below = n * step * here - above;
    above = here;
    here = below;
    if (Math.abs(here) > 1e200) {
      above *= 1e-200;
      here *= 1e-200;
      evens *= 1e-200;
      for (let i = n; i < count; i++) out[i] = out[i]! * 1e-200;
    }
  }
  const norm = 1 / (2 * evens - here);
  for (let n = 0; n < count; n++) out[n] = out[n]! * norm;
}
