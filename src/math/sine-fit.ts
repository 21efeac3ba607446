/** A sine with an offset: `offset + amplitude cos(2 pi frequency t - phase)`. */
export interface SineFit {
  /** Hz */
  readonly frequency: number;
  /** Standard error of the frequency, Hz, from what the sine leaves of the samples. */
  readonly frequencyError: number;
  readonly amplitude: number;
  readonly offset: number;
}

const MOST_ROUNDS = 30;
/** Relative change of the frequency below which it stands. */
const SETTLED = 1e-12;

/**
 * The sine nearest to samples in the least-squares sense, its frequency included.
 *
 * Method: at a given frequency the fit is linear in A cos wt + B sin wt + C; the fourth column t (B cos wt - A sin wt)
 * corrects the frequency, round by round (the four-parameter fit of IEEE Std 1057; method from memory).
 * Domain: a period at least, two samples a period at least, a start within about a tenth of the frequency. Harmonics are left in the
 * residual. Accuracy: to rounding for a pure sine; null where it does not settle.
 *
 * @param times s, ascending
 * @param start frequency to begin with, Hz
 * @param weights of the samples; all alike where there are none. A bell over a few periods keeps harmonics out of the fit.
 */
export function fitSine(
  times: Float64Array,
  values: Float64Array,
  start: number,
  weights: Float64Array | null = null,
): SineFit | null {
  const n = times.length;
  const middle = (times[0]! + times[n - 1]!) / 2;
  let frequency = start;
  let [a, b, offset] = [0, 0, 0];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const omega = 2 * Math.PI * frequency;
    const matrix = new Float64Array(16);
    const right = new Float64Array(4);
    const span = times[n - 1]! - times[0]!;
    for (let i = 0; i < n; i++) {
      const t = times[i]! - middle;
      const weight = weights?.[i] ?? 1;
      const [cos, sin] = [Math.cos(omega * t), Math.sin(omega * t)];
      // in spans, so that all columns are of one size
      const row = [cos, sin, 1, round === 0 ? 0 : (t / span) * (b * cos - a * sin)];
      for (let r = 0; r < 4; r++) {
        right[r]! += weight * row[r]! * values[i]!;
        for (let c = 0; c < 4; c++) matrix[4 * r + c]! += weight * row[r]! * row[c]!;
      }
    }
    const size = round === 0 ? 3 : 4;
    const inverse = inverted(matrix, size);
    if (inverse === null) return null;
    const solution = Array.from({ length: size }, (_, r) =>
      Array.from({ length: size }, (_, c) => inverse[4 * r + c]! * right[c]!).reduce((sum, x) => sum + x, 0),
    );
    [a, b, offset] = solution as [number, number, number];
    const step = round === 0 ? Number.POSITIVE_INFINITY : solution[3]! / span / (2 * Math.PI);
    if (round > 0) frequency += step;
    if (!(frequency > 0) || !Number.isFinite(a + b + offset)) return null;
    if (Math.abs(step) <= SETTLED * frequency) {
      const left = residualSquare(times, values, { a, b, offset, frequency, middle });
      const error = Math.sqrt((left / Math.max(1, n - 4)) * inverse[15]!) / span / (2 * Math.PI);
      return { frequency, frequencyError: error, amplitude: Math.hypot(a, b), offset };
    }
  }
  return null;
}

function residualSquare(
  times: Float64Array,
  values: Float64Array,
  {
    a,
    b,
    offset,
    frequency,
    middle,
  }: { a: number; b: number; offset: number; frequency: number; middle: number },
): number {
  const omega = 2 * Math.PI * frequency;
  let sum = 0;
  for (let i = 0; i < times.length; i++) {
    const t = times[i]! - middle;
    sum += (values[i]! - offset - a * Math.cos(omega * t) - b * Math.sin(omega * t)) ** 2;
  }
  return sum;
}

/** Gauss-Jordan of the leading `size` rows and columns of a symmetric 4 x 4 matrix; null where it has no inverse. */
function inverted(matrix: Float64Array, size: number): Float64Array | null {
  const work = Float64Array.from(matrix);
  const inverse = new Float64Array(16);
  for (let i = 0; i < size; i++) inverse[5 * i] = 1;
  for (let p = 0; p < size; p++) {
    let best = p;
    for (let r = p + 1; r < size; r++)
      if (Math.abs(work[4 * r + p]!) > Math.abs(work[4 * best + p]!)) best = r;
    const pivot = work[4 * best + p]!;
    if (!(Math.abs(pivot) > 0)) return null;
    for (let c = 0; c < size; c++) {
      for (const m of [work, inverse]) [m[4 * p + c], m[4 * best + c]] = [m[4 * best + c]!, m[4 * p + c]!];
    }
    for (let c = 0; c < size; c++) {
      work[4 * p + c]! /= pivot;
      inverse[4 * p + c]! /= pivot;
    }
    for (let r = 0; r < size; r++) {
      const factor = work[4 * r + p]!;
      if (r === p || factor === 0) continue;
      for (let c = 0; c < size; c++) {
        work[4 * r + c]! -= factor * work[4 * p + c]!;
        inverse[4 * r + c]! -= factor * inverse[4 * p + c]!;
      }
    }
  }
  return inverse;
}
