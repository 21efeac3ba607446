import { cholesky } from './cholesky.ts';
import { nearestPoint } from './least-distance.ts';

export interface QuadraticProgram {
  /** Symmetric and positive definite, n x n, rows one after the other. */
  readonly hessian: Float64Array;
  readonly gradient: Float64Array;
  /** Inequalities row . x >= bound, no row all zeros. */
  readonly rows: readonly Float64Array[];
  readonly bounds: ArrayLike<number>;
}

export interface QuadraticStep {
  readonly step: Float64Array;
  /** One an inequality, all >= 0. */
  readonly multipliers: Float64Array;
}

/**
 * min g.x + x.B x/2 subject to linear inequalities, as a least distance: with B = L L^T and z = L^T x + L^-1 g, the
 * function is |z|^2/2 and a constant (C. L. Lawson, R. J. Hanson 1974, chapter 23, section 5, from memory). Null where
 * the inequalities contradict one another, or B is not positive definite to within rounding.
 */
export function solveQuadratic({ hessian, gradient, rows, bounds }: QuadraticProgram): QuadraticStep | null {
  const n = gradient.length;
  const factor = cholesky(hessian, n, 1e-14);
  if (!factor) return null;
  const shift = forward(factor, gradient, n);
  const turned = rows.map((row) => forward(factor, row, n));
  const apart = turned.map((row, j) => bounds[j]! + row.reduce((sum, x, i) => sum + x * shift[i]!, 0));
  const nearest = nearestPoint(turned, apart, n);
  if (!nearest) return null;
  const { point, multipliers } = nearest;
  return {
    step: backward(
      factor,
      point.map((z, i) => z - shift[i]!),
      n,
    ),
    multipliers,
  };
}

/** L^-1 b. */
function forward(l: Float64Array, b: Float64Array, n: number): Float64Array {
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i * n + k]! * x[k]!;
    x[i]! /= l[i * n + i]!;
  }
  return x;
}

/** L^-T b. */
function backward(l: Float64Array, b: Float64Array, n: number): Float64Array {
  const x = b.slice();
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= l[k * n + i]! * x[k]!;
    x[i]! /= l[i * n + i]!;
  }
  return x;
}
