/**
 * Factor of a small symmetric positive definite matrix, A = L L^T (Cholesky), rows one after the other. Null where a
 * pivot is not above `floor` times its diagonal element: the rows are then dependent to within rounding.
 */
export function cholesky(a: ArrayLike<number>, n: number, floor = 1e-12): Float64Array | null {
  const l = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= l[i * n + k]! * l[j * n + k]!;
      if (i !== j) l[i * n + j] = sum / l[j * n + j]!;
      else if (sum > floor * a[i * n + i]!) l[i * n + i] = Math.sqrt(sum);
      else return null;
    }
  }
  return l;
}

/** x of L L^T x = b. */
export function solveFactored(l: Float64Array, n: number, b: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i * n + k]! * x[k]!;
    x[i]! /= l[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= l[k * n + i]! * x[k]!;
    x[i]! /= l[i * n + i]!;
  }
  return x;
}
