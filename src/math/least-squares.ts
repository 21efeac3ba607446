import { cholesky, solveFactored } from './cholesky.ts';

export interface LeastSquaresProblem {
  /** Residuals over their standard uncertainties at these parameters; null where the model has no answer. */
  residuals(parameters: Float64Array): Float64Array | null;
  readonly start: readonly number[];
  /** How far each parameter usually goes: steps of differences are a hundredth of it. Above 0. */
  readonly scale: readonly number[];
  readonly minimum: readonly number[];
  readonly maximum: readonly number[];
}

export interface LeastSquaresFit {
  readonly parameters: Float64Array;
  /** Sum of the squares of the residuals. */
  readonly chiSquare: number;
  readonly converged: boolean;
  /** Parameters that ended at a bound. */
  readonly atBound: readonly boolean[];
  /** Cosines between the columns of the Jacobian, n x n; NaN in the row of a parameter that changes nothing. */
  readonly cosines: Float64Array;
  /** (J^T J)^-1, n x n; null where the parameters cannot be separated. */
  readonly covariance: Float64Array | null;
}

const MOST_STEPS = 60;
const MOST_TRIALS = 12;
/** A step that gains less than this share of chi-square ends the search, ... */
const GAIN = 1e-10;
/** ... and so does one this small in units of `scale`. */
const STEP = 1e-7;
/** Differences reach this share of `scale` to each side. */
const REACH = 1e-2;
/** Jacobian columns whose normal matrix, scaled to a unit diagonal, has a pivot below this are dependent. */
const DEPENDENT = 1e-9;

/**
 * Weighted nonlinear least squares: Gauss-Newton damped by Levenberg and Marquardt (D. W. Marquardt, J. Soc. Indust.
 * Appl. Math. 11 (1963) 431-441), the damping on the scaled diagonal, central differences, and steps cut off at the
 * bounds. The covariance is the linearised one, (J^T J)^-1, which holds where the model is nearly linear over the
 * stated errors. Null where the model has no answer at the start.
 */
export function fitLeastSquares(problem: LeastSquaresProblem): LeastSquaresFit | null {
  const { start, minimum, maximum } = problem;
  const n = start.length;
  let at = Float64Array.from(start, (value, i) => clamp(value, minimum[i]!, maximum[i]!));
  let residuals = problem.residuals(at);
  if (residuals === null) return null;
  let cost = squares(residuals);
  let damping = 1e-3;
  let converged = false;
  let jacobian = jacobianAt(problem, at, residuals);
  for (let step = 0; step < MOST_STEPS && !converged; step++) {
    const { normal, gradient } = normalEquations(jacobian, residuals, n);
    // a parameter that is pushed against its bound stays there for this step
    const held = at.map((value, i) =>
      (value <= minimum[i]! && gradient[i]! > 0) || (value >= maximum[i]! && gradient[i]! < 0) ? 1 : 0,
    );
    let improved = false;
    for (let trial = 0; trial < MOST_TRIALS && !improved; trial++) {
      const move = dampedStep(normal, gradient, held, damping, n);
      const next = at.map((value, i) =>
        clamp(value + move[i]! * problem.scale[i]!, minimum[i]!, maximum[i]!),
      );
      const there = problem.residuals(next);
      const nextCost = there === null ? Number.POSITIVE_INFINITY : squares(there);
      if (there !== null && nextCost <= cost) {
        const small = move.every((part) => Math.abs(part) < STEP);
        converged = small || cost - nextCost <= GAIN * cost;
        at = next;
        residuals = there;
        cost = nextCost;
        damping = Math.max(damping / 10, 1e-12);
        improved = true;
      } else {
        converged = move.every((part) => Math.abs(part) < STEP);
        damping *= 10;
        if (converged) break;
      }
    }
    if (!improved) break;
    jacobian = jacobianAt(problem, at, residuals);
  }
  const { normal } = normalEquations(jacobian, residuals, n);
  return {
    parameters: at,
    chiSquare: cost,
    converged,
    atBound: Array.from(at, (value, i) => value <= minimum[i]! || value >= maximum[i]!),
    cosines: normal.map((value, k) => {
      const [i, j] = [Math.floor(k / n), k % n];
      return value / Math.sqrt(normal[i * n + i]! * normal[j * n + j]!);
    }),
    covariance: inverse(normal, problem.scale, n),
  };
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}

function squares(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}

/** Columns one after the other, per unit of `scale`. */
function jacobianAt(
  { residuals, scale, minimum, maximum }: LeastSquaresProblem,
  at: Float64Array,
  here: Float64Array,
): Float64Array[] {
  return scale.map((size, i) => {
    const moved = (by: number): readonly [number, Float64Array] => {
      const there = at.slice();
      there[i] = clamp(at[i]! + by * size, minimum[i]!, maximum[i]!);
      const values = residuals(there);
      return values === null ? [at[i]!, here] : [there[i]!, values];
    };
    const [low, before] = moved(-REACH);
    const [high, after] = moved(REACH);
    if (high === low) return new Float64Array(here.length);
    return before.map((value, k) => ((after[k]! - value) / (high - low)) * size);
  });
}

function normalEquations(jacobian: readonly Float64Array[], residuals: Float64Array, n: number) {
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, k) => sum + value * b[k]!, 0);
  const normal = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    gradient[i] = dot(jacobian[i]!, residuals);
    for (let j = 0; j <= i; j++) {
      const value = dot(jacobian[i]!, jacobian[j]!);
      normal[i * n + j] = value;
      normal[j * n + i] = value;
    }
  }
  return { normal, gradient };
}

/** The step in units of `scale`; 0 for a parameter that is held or changes nothing. */
function dampedStep(
  normal: Float64Array,
  gradient: Float64Array,
  held: Float64Array,
  damping: number,
  n: number,
): Float64Array {
  const matrix = normal.slice();
  const right = gradient.map((value, i) => (held[i] ? 0 : -value));
  for (let i = 0; i < n; i++) {
    const own = normal[i * n + i]!;
    matrix[i * n + i] = own > 0 ? own * (1 + damping) : 1;
    for (let j = 0; held[i] && j < n; j++) {
      if (j === i) continue;
      matrix[i * n + j] = 0;
      matrix[j * n + i] = 0;
    }
  }
  const factor = cholesky(matrix, n, 0);
  return factor === null ? new Float64Array(n) : solveFactored(factor, n, right);
}

/** Inverse of the normal matrix in units of the parameters; found with a unit diagonal. */
function inverse(normal: Float64Array, scale: readonly number[], n: number): Float64Array | null {
  const size = Array.from({ length: n }, (_, i) => Math.sqrt(normal[i * n + i]!));
  if (size.some((value) => !(value > 0))) return null;
  const unit = normal.map((value, k) => value / (size[Math.floor(k / n)]! * size[k % n]!));
  const factor = cholesky(unit, n, DEPENDENT);
  if (factor === null) return null;
  const out = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const column = solveFactored(
      factor,
      n,
      Float64Array.from({ length: n }, (_, i) => (i === j ? 1 : 0)),
    );
    for (let i = 0; i < n; i++) {
      out[i * n + j] = (column[i]! * scale[i]! * scale[j]!) / (size[i]! * size[j]!);
    }
  }
  return out;
}
