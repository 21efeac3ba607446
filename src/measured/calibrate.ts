import { fitLeastSquares, type LeastSquaresFit } from '../math/least-squares.ts';
import type { Calibration, FreeInput, MeasuredPoint, Residual } from '../model/measured.ts';
import type { Predictor } from '../rig/predict.ts';
import { difference, residualsOf } from './residuals.ts';

/** From this correlation on two inputs can hardly be separated. */
const ALIKE = 0.95;

/**
 * The inputs that bring the model nearest to the measured points: least squares weighted by the uncertainties, which
 * are those at the start. Readings that the model has no answer for at the start are left out. Where uncertainties are
 * not stated they are taken from the scatter of the differences. Null where no reading is left.
 */
export function calibrate(
  points: readonly MeasuredPoint[],
  predictor: Predictor,
  free: readonly FreeInput[],
): Calibration | null {
  const settings = (values: ArrayLike<number>) => free.map(({ slot }, i) => [slot, values[i]!] as const);
  const start = residualsOf(points, predictor, settings(free.map((each) => each.start)));
  const used = start.filter(({ model }) => !Number.isNaN(model));
  if (used.length === 0) return null;
  const stated = used.every(({ reading }) => !Number.isNaN(reading.uncertainty));
  const freedom = used.length - free.length;

  const solve = (scatter: number): LeastSquaresFit =>
    fitLeastSquares({
      residuals: (values) => weighted(used, predictor, settings(values), free, values, scatter),
      start: free.map((each) => each.start),
      scale: free.map((each) => each.scale),
      minimum: free.map((each) => each.minimum),
      maximum: free.map((each) => each.maximum),
    })!;
  const ofData = ({ parameters }: LeastSquaresFit, scatter: number) =>
    weighted(used, predictor, settings(parameters), free, parameters, scatter)!
      .subarray(0, used.length)
      .reduce((sum, value) => sum + value * value, 0);
  let scatter = 1;
  let found = solve(scatter);
  if (!stated && freedom > 0) {
    scatter = Math.sqrt(ofData(found, scatter) / freedom);
    // exact data have no scatter
    if (scatter > 0) found = solve(scatter);
    else scatter = 1;
  }

  const { parameters, covariance, atBound, converged } = found;
  const known = covariance !== null && (stated || freedom > 0);
  const n = free.length;
  return {
    fitted: free.map((each, i) => ({
      free: each,
      value: parameters[i]!,
      error: known ? Math.sqrt(covariance[i * n + i]!) : Number.NaN,
      atBound: atBound[i]!,
    })),
    residuals: residualsOf(points, predictor, settings(parameters)),
    chiSquare: ofData(found, scatter),
    freedom,
    stated,
    converged,
    ...distinguish(free, found),
  };
}

/** Differences over their uncertainties, then the priors'; null where a used reading has no answer any more. */
function weighted(
  used: readonly Residual[],
  predictor: Predictor,
  changes: readonly (readonly [slot: number, value: number])[],
  free: readonly FreeInput[],
  values: ArrayLike<number>,
  scatter: number,
): Float64Array | null {
  const out: number[] = [];
  let evaluated: MeasuredPoint | null = null;
  let results = new Float64Array(0);
  for (const { point, reading, sigma } of used) {
    if (point !== evaluated) results = predictor.evaluate(point, changes) as Float64Array<ArrayBuffer>;
    evaluated = point;
    const model = results[reading.quantity]!;
    if (Number.isNaN(model)) return null;
    out.push(difference({ point, reading, model, sigma }) / (sigma * scatter));
  }
  free.forEach(({ prior }, i) => {
    if (prior) out.push((values[i]! - prior.value) / prior.error);
  });
  return Float64Array.from(out);
}

function distinguish(
  free: readonly FreeInput[],
  { cosines, covariance }: LeastSquaresFit,
): Pick<Calibration, 'alike' | 'idle' | 'distinct'> {
  const n = free.length;
  const idle = free.filter((_, i) => Number.isNaN(cosines[i * n + i]!)).map(({ path }) => path);
  const alike = free.flatMap((a, i) =>
    free.slice(i + 1).flatMap((b, k) => {
      const j = i + 1 + k;
      // the columns of dependent inputs are parallel; their estimates then go exactly against each other
      const correlation = covariance
        ? covariance[i * n + j]! / Math.sqrt(covariance[i * n + i]! * covariance[j * n + j]!)
        : -cosines[i * n + j]!;
      return Math.abs(correlation) > ALIKE ? [[a.path, b.path, correlation] as const] : [];
    }),
  );
  return { alike, idle, distinct: covariance !== null };
}
