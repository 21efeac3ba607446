import { asCosts, type Sense } from './senses.ts';

/**
 * Per objective the row that is best in it; of equals, the lowest row. For the rows of a front: no NaN.
 * Empty when there is no row.
 */
export function extremeRows(columns: readonly Float64Array[], senses: readonly Sense[]): number[] {
  const costs = asCosts(columns, senses);
  return costs[0]!.length === 0 ? [] : costs.map(lowestRow);
}

/**
 * The knee: the row farthest, on the better side, from the plane through the extremes, all objectives scaled
 * to 0 (best on the front) to 1 (worst). With two objectives these extremes are (0, 1) and (1, 0), and the
 * knee is that of I. Das, On characterizing the "knee" of the Pareto curve based on normal-boundary
 * intersection, Structural Optimization 18 (1999) 107-115. With more, the plane is the one through the unit
 * points, since that through the individual best rows has no direction when one row is best in two
 * objectives. Farthest from it means the lowest sum of scaled objectives; of equals, the lowest row.
 * An objective that is the same in all rows does not count. -1 when there is no row.
 */
export function kneeRow(columns: readonly Float64Array[], senses: readonly Sense[]): number {
  const scaled = asCosts(columns, senses).map(scaledToUnit);
  if (scaled[0]!.length === 0) return -1;
  return lowestRow(scaled[0]!.map((_, row) => scaled.reduce((sum, cost) => sum + cost[row]!, 0)));
}

function lowestRow(costs: Float64Array): number {
  let lowest = 0;
  for (let row = 1; row < costs.length; row++) if (costs[row]! < costs[lowest]!) lowest = row;
  return lowest;
}

function scaledToUnit(costs: Float64Array): Float64Array {
  const best = costs.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const worst = costs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const range = worst - best;
  // Infinite ends leave no scale to place a row on: it is at the best end or it is not.
  if (!Number.isFinite(range)) return costs.map((cost) => (cost === best ? 0 : 1));
  return costs.map((cost) => (range === 0 ? 0 : (cost - best) / range));
}
