/**
 * Factorisation A = C C^T (plain transpose) of a complex symmetric matrix A = B + jM whose real and imaginary
 * parts are both positive definite: the matrix of coils with resistance that couple by their fields.
 * No pivoting is needed: the growth factor stays below 3 (N. J. Higham, Factorizing complex symmetric matrices
 * with positive definite real and imaginary parts, Math. Comp. 67 (1998) 1591-1599, from memory).
 *
 * @param size order n of the matrix
 * @param re real part, row-major n x n; only the lower triangle is read, and overwritten by that of C
 * @param im imaginary part, likewise
 * @param diagonal receives 1 / C_ii as pairs (re, im), length 2n
 */
export function complexCholesky(
  size: number,
  re: Float64Array,
  im: Float64Array,
  diagonal: Float64Array,
): void {
  for (let i = 0; i < size; i++) {
    const ri = i * size;
    for (let j = 0; j <= i; j++) {
      const rj = j * size;
      let sr = re[ri + j]!;
      let si = im[ri + j]!;
      for (let k = 0; k < j; k++) {
        const ar = re[ri + k]!;
        const ai = im[ri + k]!;
        const br = re[rj + k]!;
        const bi = im[rj + k]!;
        sr -= ar * br - ai * bi;
        si -= ar * bi + ai * br;
      }
      if (j < i) {
        const dr = diagonal[2 * j]!;
        const di = diagonal[2 * j + 1]!;
        re[ri + j] = sr * dr - si * di;
        im[ri + j] = sr * di + si * dr;
      } else {
        // principal root, then its reciprocal
        const modulus = Math.hypot(sr, si);
        const rootRe = Math.sqrt((modulus + sr) / 2);
        const rootIm = si / (2 * rootRe);
        re[ri + i] = rootRe;
        im[ri + i] = rootIm;
        diagonal[2 * i] = rootRe / modulus;
        diagonal[2 * i + 1] = -rootIm / modulus;
      }
    }
  }
}

/** Solves C y = x in place, x complex of length n, C and its diagonal from `complexCholesky`. */
export function solveLower(
  size: number,
  re: Float64Array,
  im: Float64Array,
  diagonal: Float64Array,
  xRe: Float64Array,
  xIm: Float64Array,
): void {
  for (let i = 0; i < size; i++) {
    const row = i * size;
    let sr = xRe[i]!;
    let si = xIm[i]!;
    for (let k = 0; k < i; k++) {
      const cr = re[row + k]!;
      const ci = im[row + k]!;
      sr -= cr * xRe[k]! - ci * xIm[k]!;
      si -= cr * xIm[k]! + ci * xRe[k]!;
    }
    const dr = diagonal[2 * i]!;
    const di = diagonal[2 * i + 1]!;
    xRe[i] = sr * dr - si * di;
    xIm[i] = sr * di + si * dr;
  }
}

/** Solves C^T y = x in place, after `solveLower` the second half of solving A y = b. */
export function solveUpper(
  size: number,
  re: Float64Array,
  im: Float64Array,
  diagonal: Float64Array,
  xRe: Float64Array,
  xIm: Float64Array,
): void {
  for (let i = size - 1; i >= 0; i--) {
    const row = i * size;
    const dr = diagonal[2 * i]!;
    const di = diagonal[2 * i + 1]!;
    const yr = xRe[i]! * dr - xIm[i]! * di;
    const yi = xRe[i]! * di + xIm[i]! * dr;
    xRe[i] = yr;
    xIm[i] = yi;
    for (let k = 0; k < i; k++) {
      const cr = re[row + k]!;
      const ci = im[row + k]!;
      xRe[k] = xRe[k]! - (cr * yr - ci * yi);
      xIm[k] = xIm[k]! - (cr * yi + ci * yr);
    }
  }
}
