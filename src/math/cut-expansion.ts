/**
 * Several smooth functions of a few variables over a box, from few exact values:
 *   f(u) = f0 + sum_i p_i(u_i) + sum_{i<j} b_ij u_i u_j,   each u in [-1, 1],
 * p_i a polynomial through values on the axis of u_i, b_ij from one corner of each pair (the cut expansion of H. Rabitz and
 * O. F. Alis, J. Math. Chem. 25 (1999) 197, to second order). With degrees of 2 what is left over is of third order in the
 * box's width. It is exact for polynomials of that form (test).
 *
 * `prepare` lays the points, `fit` takes the values there, `evaluate` sums.
 */
export class CutExpansion {
  /** Coordinates, point after point; the first is the middle. */
  points = new Float64Array(0);
  pointCount = 0;
  private readonly degrees: number[] = [];
  private variables = 0;
  private functions = 0;
  private terms = 0;
  /** By term, a coefficient a function. */
  private coefficients = new Float64Array(0);
  private powers = new Float64Array(0);

  /** @param degrees one a variable, each 2 or 4 */
  prepare(degrees: readonly number[]): void {
    const count = degrees.length;
    // one design after the other differs along the same axes
    const isSame = count === this.degrees.length && degrees.every((degree, v) => degree === this.degrees[v]);
    if (isSame && this.terms > 0) return;
    this.degrees.length = 0;
    this.degrees.push(...degrees);
    this.variables = count;
    const along = degrees.reduce((sum, degree) => sum + degree, 0);
    this.terms = 1 + along + (count * (count - 1)) / 2;
    this.pointCount = this.terms;
    this.powers = new Float64Array(this.terms);
    this.points = new Float64Array(this.pointCount * count);
    let point = 1;
    degrees.forEach((degree, v) => {
      for (const at of axis(degree).nodes) this.points[point++ * count + v] = at;
    });
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < i; j++) {
        this.points[point * count + i] = 1;
        this.points[point++ * count + j] = 1;
      }
    }
  }

  /** @param values of the functions, point after point */
  fit(values: Float64Array, functions: number): void {
    const { degrees, variables, terms } = this;
    this.functions = functions;
    if (this.coefficients.length < terms * functions) this.coefficients = new Float64Array(terms * functions);
    const { coefficients } = this;
    for (let f = 0; f < functions; f++) {
      const above = (point: number) => values[point * functions + f]! - values[f]!;
      coefficients[f] = values[f]!;
      let at = 1;
      for (let v = 0; v < variables; v++) {
        const degree = degrees[v]!;
        const { inverse } = axis(degree);
        for (let d = 0; d < degree; d++) {
          let sum = 0;
          for (let n = 0; n < degree; n++) sum += inverse[d * degree + n]! * above(at + n);
          coefficients[(at + d) * functions + f] = sum;
        }
        at += degree;
      }
      for (let i = 0; i < variables; i++) {
        for (let j = 0; j < i; j++) {
          coefficients[at * functions + f] = above(at) - above(this.last(i)) - above(this.last(j));
          at++;
        }
      }
    }
  }

  /** Fills the first entries of `out`, one a function. */
  evaluate(u: Float64Array, out: Float64Array): void {
    const { degrees, variables, terms, functions, coefficients, powers } = this;
    let at = 0;
    powers[at++] = 1;
    for (let v = 0; v < variables; v++) {
      let power = 1;
      for (let d = 0; d < degrees[v]!; d++) {
        power *= u[v]!;
        powers[at++] = power;
      }
    }
    for (let i = 0; i < variables; i++) for (let j = 0; j < i; j++) powers[at++] = u[i]! * u[j]!;
    for (let f = 0; f < functions; f++) out[f] = coefficients[f]!;
    for (let t = 1; t < terms; t++) {
      const power = powers[t]!;
      const row = t * functions;
      for (let f = 0; f < functions; f++) out[f] = out[f]! + power * coefficients[row + f]!;
    }
  }

  /** Number of the point at the upper end of a variable's axis. */
  private last(variable: number): number {
    let at = 0;
    for (let v = 0; v <= variable; v++) at += this.degrees[v]!;
    return at;
  }
}

interface Axis {
  /** Beside 0; the last is 1. */
  readonly nodes: readonly number[];
  /** From values at the nodes, less that at 0, to coefficients of u, u2, ... */
  readonly inverse: Float64Array;
}

const QUADRATIC: Axis = { nodes: [-1, 1], inverse: Float64Array.of(-1 / 2, 1 / 2, 1 / 2, 1 / 2) };
const HALF = 1 / 2;
/** Through -1, -1/2, 0, 1/2, 1. */
const QUARTIC: Axis = {
  nodes: [-1, -HALF, HALF, 1],
  inverse: Float64Array.of(
    ...[1 / 6, -4 / 3, 4 / 3, -1 / 6],
    ...[-1 / 6, 8 / 3, 8 / 3, -1 / 6],
    ...[-2 / 3, 4 / 3, -4 / 3, 2 / 3],
    ...[2 / 3, -8 / 3, -8 / 3, 2 / 3],
  ),
};

function axis(degree: number): Axis {
  return degree === 2 ? QUADRATIC : QUARTIC;
}
