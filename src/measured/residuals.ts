import type { MeasuredPoint, Residual } from '../model/measured.ts';
import { QUANTITIES, type Quantity } from '../model/quantities.ts';
import type { Predictor, Settings } from '../rig/predict.ts';

/** Where no uncertainty is stated, readings of a quantity weigh as if each had this share of their size. */
const ASSUMED_SHARE = 0.01;

/** Every reading beside what the model gives with some inputs changed. */
export function residualsOf(
  points: readonly MeasuredPoint[],
  predictor: Predictor,
  changes: Settings,
): Residual[] {
  const sizes = sizesOf(points);
  return points.flatMap((point) => {
    const uncertain = point.driveUncertainty;
    // laws answer into one array
    const above = uncertain > 0 ? predictor.evaluate(point, changes, uncertain).slice() : null;
    const below = uncertain > 0 ? predictor.evaluate(point, changes, -uncertain).slice() : null;
    const here = predictor.evaluate(point, changes);
    return point.readings.map((reading): Residual => {
      const { quantity, uncertainty } = reading;
      // law of propagation, JCGM 100 (10), for an uncorrelated drive
      const byDrive = above && below ? (above[quantity]! - below[quantity]!) / 2 : 0;
      const own = Number.isNaN(uncertainty) ? ASSUMED_SHARE * sizes.get(quantity)! : uncertainty;
      const sigma = Math.hypot(own, Number.isNaN(byDrive) ? 0 : byDrive);
      return { point, reading, model: here[quantity]!, sigma };
    });
  });
}

/** Root mean square of what was measured of each quantity. */
function sizesOf(points: readonly MeasuredPoint[]): Map<number, number> {
  const squares = new Map<number, number[]>();
  for (const { quantity, value } of points.flatMap(({ readings }) => readings)) {
    squares.set(quantity, [...(squares.get(quantity) ?? []), value * value]);
  }
  return new Map([...squares].map(([quantity, all]) => [quantity, Math.sqrt(mean(all)) || 1]));
}

/** How the readings of one quantity stand to the model, SI: differences are measured minus model. */
export interface Standing {
  readonly quantity: Quantity;
  readonly residuals: readonly Residual[];
  readonly bias: number;
  readonly rms: number;
  /** Of what was measured. */
  readonly mean: number;
  /** Line of the largest difference. */
  readonly worst: Residual;
}

/** By quantity, in the order of the registry; readings without an answer of the model are left out. */
export function standings(residuals: readonly Residual[]): Standing[] {
  return QUANTITIES.flatMap((quantity): Standing[] => {
    const own = residuals.filter(
      ({ reading, model }) => reading.quantity === quantity.index && !Number.isNaN(model),
    );
    if (own.length === 0) return [];
    const differences = own.map(difference);
    const worst = own.reduce((a, b) => (Math.abs(difference(b)) > Math.abs(difference(a)) ? b : a));
    return [
      {
        quantity,
        residuals: own,
        bias: mean(differences),
        rms: Math.sqrt(mean(differences.map((d) => d * d))),
        mean: mean(own.map(({ reading }) => reading.value)),
        worst,
      },
    ];
  });
}

/** Measured minus model. */
export function difference({ reading, model }: Residual): number {
  return reading.value - model;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
