import { symmetricEigen } from './symmetric-eigen.ts';

/** Points and weights, in no order. */
export interface PointRule {
  readonly points: Float64Array;
  readonly weights: Float64Array;
}

/**
 * The Gauss rule of a sum: few points whose weighted sum of f is that over all given points where f is a polynomial of
 * degree 2 size - 1 or less. Lanczos's recurrence on the diagonal matrix of the points, begun from the roots of the weights
 * and made orthogonal twice; points are the eigenvalues of the tridiagonal matrix, weights the squared first entries of its
 * vectors. Fewer points where fewer carry weight.
 *
 * @param points, weights given ones; negative weights count as none
 * Source: G. H. Golub, J. H. Welsch, Math. Comp. 23 (1969) 221-230; W. Gautschi, Orthogonal Polynomials (2004), 2.2 (from memory;
 * held by tests against the definition).
 */
export function gaussOfPoints(points: Float64Array, weights: Float64Array, size: number): PointRule {
  const count = points.length;
  let total = 0;
  for (let i = 0; i < count; i++) total += Math.max(0, weights[i]!);
  const vectors = new Float64Array(size * count);
  for (let i = 0; i < count; i++) vectors[i] = Math.sqrt(Math.max(0, weights[i]!) / total);
  const diagonal: number[] = [];
  const off: number[] = [];
  for (let j = 0; j < size; j++) {
    const at = j * count;
    const next = vectors.slice(at, at + count);
    for (let i = 0; i < count; i++) next[i] = next[i]! * points[i]!;
    diagonal.push(dot(vectors, at, next));
    for (let pass = 0; pass < 2; pass++) for (let i = j; i >= 0; i--) takeOut(vectors, i * count, next);
    const norm = Math.sqrt(dot(next, 0, next));
    if (j + 1 === size || !(norm > LEAST_NORM * Math.abs(diagonal[j]!))) break;
    off.push(norm);
    for (let i = 0; i < count; i++) vectors[at + count + i] = next[i]! / norm;
  }
  const n = diagonal.length;
  const matrix = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    matrix[j * n + j] = diagonal[j]!;
    if (j + 1 < n) matrix[j * n + j + 1] = matrix[(j + 1) * n + j] = off[j]!;
  }
  const values = new Float64Array(n);
  symmetricEigen(n, matrix, values);
  return { points: values, weights: Float64Array.from(values, (_, j) => total * matrix[j]! * matrix[j]!) };
}

/** What is left of a vector below this is rounding. */
const LEAST_NORM = 1e-12;

/** Of a row that begins at `at`, and a vector. */
function dot(rows: Float64Array, at: number, vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i++) sum += rows[at + i]! * vector[i]!;
  return sum;
}

/** Takes out of a vector what lies along a row of length one. */
function takeOut(rows: Float64Array, at: number, vector: Float64Array): void {
  const along = dot(rows, at, vector);
  for (let i = 0; i < vector.length; i++) vector[i] = vector[i]! - along * rows[at + i]!;
}
