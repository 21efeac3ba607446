/**
 * Scaled modified spherical Bessel functions of orders 0 to count - 1,
 *   first[n] = e^{-q} i_n(q),  second[n] = e^{q} k_n(q),  i_0 = sinh q / q,  k_0 = e^{-q} / q
 * (k_n without the factor pi/2 that some authors keep). They are the moments of Legendre polynomials with
 * exponentials: int_{-1}^{1} P_n(x) e^{qx} dx = 2 i_n(q).
 *
 * i_n by backward recurrence i_{n-1} = i_{n+1} + (2n + 1) i_n / q, normalised by i_0; k_n by the forward one,
 * k_{n+1} = k_{n-1} + (2n + 1) k_n / q: each in its stable direction.
 *
 * @param q argument, > 0; small enough arguments overflow k_n (q^{n+1} < 1e-300)
 * Accuracy: 1e-14 relative.
 * Source: DLMF 10.47, 10.51.4; Abramowitz & Stegun 10.2.
 */
export function sphericalBessel(q: number, count: number, first: Float64Array, second: Float64Array): void {
  const zeroth = -Math.expm1(-2 * q) / (2 * q);
  // ratio i_{n+1} / i_n from a start high enough for its error to have died out
  let ratio = 0;
  for (let n = count + 8 + Math.ceil(1.5 * Math.min(q, 200)); n > 0; n--) {
    ratio = 1 / (ratio + (2 * n + 1) / q);
    if (n < count) first[n] = ratio;
  }
  let value = zeroth;
  first[0] = zeroth;
  for (let n = 1; n < count; n++) {
    value *= first[n]!;
    first[n] = value;
  }
  second[0] = 1 / q;
  if (count > 1) second[1] = (1 + 1 / q) / q;
  for (let n = 1; n + 1 < count; n++) second[n + 1] = second[n - 1]! + ((2 * n + 1) / q) * second[n]!;
}
