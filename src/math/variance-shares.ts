import { cholesky, solveFactored } from './cholesky.ts';

/** How the spread of a sample's output follows from those of its inputs. */
export interface VarianceShares {
  /** R²: the part of the output's variance that the plane through the sample explains, 0 to 1. */
  readonly explained: number;
  /**
   * Standardised slopes, an input each: standard deviations of the output for one of the input; 0 for an input that
   * never changes. Their squares are shares of the output's variance.
   */
  readonly slopes: Float64Array;
}

/** Inputs whose correlation matrix has a pivot below this cannot be separated in the sample. */
const DEPENDENT = 1e-6;

/**
 * Standardised regression slopes: least squares of y on all inputs at once, each scaled to its own standard deviation in
 * the sample (A. Saltelli, J. Marivoet, Reliab. Eng. Syst. Saf. 28 (1990) 229-253; A. Saltelli et al., Global Sensitivity
 * Analysis: The Primer, 2008, chapter 1; both from memory). Of a linear model with independent inputs the squares are its
 * first-order indices and add up to 1: the shares of variance of the law of propagation (JCGM 100:2008, equation 10).
 * Of another model they are worth as much as `explained`. What is not linear blurs a share by about
 * (1 - explained) / n, n the size of the sample.
 *
 * @param inputs columns as long as `output`
 * @returns null where the output never changes, a value is not finite, or the inputs cannot be separated
 */
export function varianceShares(inputs: readonly Float64Array[], output: Float64Array): VarianceShares | null {
  const y = standardised(output);
  const columns = inputs.map(standardised);
  if (y === null || y === CONSTANT || columns.includes(null)) return null;
  const n = output.length;
  const moving = [...inputs.keys()].filter((i) => columns[i] !== CONSTANT);
  const used = moving.map((i) => columns[i]!);
  const m = used.length;
  const matrix = new Float64Array(m * m);
  const right = new Float64Array(m);
  used.forEach((a, i) => {
    right[i] = dot(a, y) / n;
    used.forEach((b, j) => {
      matrix[i * m + j] = dot(a, b) / n;
    });
  });
  const factor = cholesky(matrix, m, DEPENDENT);
  if (factor === null) return null;
  const found = solveFactored(factor, m, right);
  const slopes = new Float64Array(inputs.length);
  moving.forEach((i, k) => {
    slopes[i] = found[k]!;
  });
  // with standardised columns R² is the slopes' product with the correlations to the output
  const explained = Math.min(1, Math.max(0, dot(found, right)));
  return { explained, slopes };
}

const CONSTANT = new Float64Array(0);
/** Deviations below this share of the mean are rounding. */
const ROUNDING = 1e-12;

/** Mean 0, variance 1; CONSTANT where it never changes, null where a value is not finite. */
function standardised(column: Float64Array): Float64Array | null {
  if (!column.every(Number.isFinite)) return null;
  const mean = column.reduce((sum, value) => sum + value, 0) / column.length;
  const centred = column.map((value) => value - mean);
  const deviation = Math.sqrt(dot(centred, centred) / column.length);
  if (!(deviation > ROUNDING * Math.abs(mean))) return CONSTANT;
  return centred.map((value) => value / deviation);
}

function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, k) => sum + value * b[k]!, 0);
}
