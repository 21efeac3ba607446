/**
 * Eigenvalues and eigenvectors of a real symmetric matrix: Householder's reduction to tridiagonal form, then QL steps
 * with implicit shifts.
 *
 * @param n order
 * @param a row-major n x n, overwritten: its columns become the orthonormal eigenvectors
 * @param values receives the eigenvalues, length n, in no order
 * Accuracy: eigenvalues to some 1e-15 of the largest in size; vectors orthonormal to the same.
 * Source: R. S. Martin, C. Reinsch, J. H. Wilkinson, Numer. Math. 11 (1968) 181-195; H. Bowdler, R. S. Martin,
 * C. Reinsch, J. H. Wilkinson, Numer. Math. 11 (1968) 293-306 (from memory; held by tests against the definition).
 */
export function symmetricEigen(n: number, a: Float64Array, values: Float64Array): void {
  const off = new Float64Array(n);
  tridiagonalise(n, a, values, off);
  for (let i = 1; i < n; i++) off[i - 1] = off[i]!;
  if (n > 0) off[n - 1] = 0;
  // vectors as rows from here on, so that a rotation runs along memory
  transpose(n, a);
  let scale = 0;
  for (let i = 0; i < n; i++) scale = Math.max(scale, Math.abs(values[i]!) + Math.abs(off[i]!));
  for (let l = 0; l < n; l++) {
    for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
      let m = l;
      while (m < n - 1) {
        const size = Math.abs(values[m]!) + Math.abs(values[m + 1]!);
        if (Math.abs(off[m]!) <= Number.EPSILON * Math.max(size, scale * 1e-3)) break;
        m++;
      }
      if (m === l) break;
      const g0 = (values[l + 1]! - values[l]!) / (2 * off[l]!);
      const r0 = Math.hypot(g0, 1);
      let g = values[m]! - values[l]! + off[l]! / (g0 + (g0 >= 0 ? r0 : -r0));
      let s = 1;
      let c = 1;
      let p = 0;
      let i = m - 1;
      for (; i >= l; i--) {
        const f = s * off[i]!;
        const b = c * off[i]!;
        const r = Math.hypot(f, g);
        off[i + 1] = r;
        if (r === 0) {
          values[i + 1] = values[i + 1]! - p;
          off[m] = 0;
          break;
        }
        s = f / r;
        c = g / r;
        const h = values[i + 1]! - p;
        const t = (values[i]! - h) * s + 2 * c * b;
        p = s * t;
        values[i + 1] = h + p;
        g = c * t - b;
        rotate(a, i * n, n, s, c);
      }
      if (i >= l) continue;
      values[l] = values[l]! - p;
      off[l] = g;
      off[m] = 0;
    }
  }
  transpose(n, a);
}

/** Two rows, of which the second follows the first. On its own so that the engine compiles it while the rest still runs slowly. */
function rotate(a: Float64Array, upper: number, n: number, s: number, c: number): void {
  const lower = upper + n;
  for (let k = 0; k < n; k++) {
    const x = a[lower + k]!;
    const y = a[upper + k]!;
    a[lower + k] = s * y + c * x;
    a[upper + k] = c * y - s * x;
  }
}

/** More than three are rare. */
const MOST_SWEEPS = 60;

/** a becomes the orthogonal Q of Q^T A Q = tridiagonal; `off` holds the subdiagonal from index 1 on. */
function tridiagonalise(n: number, a: Float64Array, diagonal: Float64Array, off: Float64Array): void {
  for (let i = n - 1; i > 0; i--) {
    const row = i * n;
    let scale = 0;
    for (let k = 0; k < i; k++) scale += Math.abs(a[row + k]!);
    if (i === 1 || scale === 0) {
      off[i] = a[row + i - 1]!;
      diagonal[i] = 0;
      continue;
    }
    let h = 0;
    for (let k = 0; k < i; k++) {
      const x = a[row + k]! / scale;
      a[row + k] = x;
      h += x * x;
    }
    const f = a[row + i - 1]!;
    const g = f >= 0 ? -Math.sqrt(h) : Math.sqrt(h);
    off[i] = scale * g;
    h -= f * g;
    a[row + i - 1] = f - g;
    let sum = 0;
    for (let j = 0; j < i; j++) {
      a[j * n + i] = a[row + j]! / h;
      let e = 0;
      for (let k = 0; k <= j; k++) e += a[j * n + k]! * a[row + k]!;
      for (let k = j + 1; k < i; k++) e += a[k * n + j]! * a[row + k]!;
      off[j] = e / h;
      sum += off[j]! * a[row + j]!;
    }
    const half = sum / (2 * h);
    for (let j = 0; j < i; j++) {
      const x = a[row + j]!;
      const e = off[j]! - half * x;
      off[j] = e;
      for (let k = 0; k <= j; k++) a[j * n + k] = a[j * n + k]! - (x * off[k]! + e * a[row + k]!);
    }
    diagonal[i] = h;
  }
  if (n > 0) {
    diagonal[0] = 0;
    off[0] = 0;
  }
  for (let i = 0; i < n; i++) {
    const row = i * n;
    if (diagonal[i] !== 0) {
      for (let j = 0; j < i; j++) {
        let g = 0;
        for (let k = 0; k < i; k++) g += a[row + k]! * a[k * n + j]!;
        for (let k = 0; k < i; k++) a[k * n + j] = a[k * n + j]! - g * a[k * n + i]!;
      }
    }
    diagonal[i] = a[row + i]!;
    a[row + i] = 1;
    for (let j = 0; j < i; j++) {
      a[row + j] = 0;
      a[j * n + i] = 0;
    }
  }
}

function transpose(n: number, a: Float64Array): void {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const x = a[i * n + j]!;
      a[i * n + j] = a[j * n + i]!;
      a[j * n + i] = x;
    }
  }
}
