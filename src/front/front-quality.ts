import { hypervolume, MOST_COSTS } from '../math/hypervolume.ts';
import { asCosts, type Sense } from './senses.ts';

/** How much a front covers, and how evenly. */
export interface FrontQuality {
  /**
   * The share of the box between `best` and `reference` that the front dominates, 0 to 1; null where the front spans no
   * box (one objective, or all its designs equal in one) or has more than three objectives.
   */
  readonly hypervolume: number | null;
  /** Per objective, the best value on the front. */
  readonly best: readonly number[];
  /** Per objective, the worst value on the front and a tenth of the extent beyond, so that the extremes count, too. */
  readonly reference: readonly number[];
  /**
   * How unevenly the designs lie along it: the mean deviation of their distances to the nearest other from the mean of
   * these distances, over that mean, in objectives scaled to their extents; 0 is even. Null for fewer than three. The
   * spread of A. Zhou et al., CEC 2006, 892-899, doi:10.1109/CEC.2006.1688406, with the front's own extremes.
   */
  readonly unevenness: number | null;
}

const MARGIN = 0.1;

/** For the rows of a front, one at least: no NaN. */
export function frontQuality(columns: readonly Float64Array[], senses: readonly Sense[]): FrontQuality {
  const costs = asCosts(columns, senses);
  const ends = costs.map((cost) => {
    const [low, high] = [cost.reduce((a, b) => Math.min(a, b)), cost.reduce((a, b) => Math.max(a, b))];
    return { low, high, extent: high - low };
  });
  const back = (cost: number, o: number) => (senses[o] === 'maximise' ? -cost : cost) + 0;
  const spans = ends.every(({ extent }) => extent > 0 && Number.isFinite(extent));
  const scaled = costs.map((cost, o) => cost.map((value) => (value - ends[o]!.low) / ends[o]!.extent));
  const corner = 1 + MARGIN;
  return {
    hypervolume:
      spans && costs.length > 1 && costs.length <= MOST_COSTS
        ? hypervolume(
            scaled,
            scaled.map(() => corner),
          ) /
          corner ** costs.length
        : null,
    best: ends.map(({ low }, o) => back(low, o)),
    reference: ends.map(({ high, extent }, o) => back(high + MARGIN * extent, o)),
    unevenness: spans ? unevennessOf(scaled) : null,
  };
}

function unevennessOf(scaled: readonly Float64Array[]): number | null {
  const count = scaled[0]!.length;
  if (count < 3) return null;
  // designs that are equal in every objective are one point
  const points = new Map(
    Array.from({ length: count }, (_, row) => scaled.map((column) => column[row]!)).map((point) => [
      point.join(),
      point,
    ]),
  );
  const all = [...points.values()].sort((a, b) => a[0]! - b[0]!);
  if (all.length < 3) return null;
  const distances = all.map((_, i) => toNearest(all, i));
  const mean = distances.reduce((sum, d) => sum + d, 0) / distances.length;
  return distances.reduce((sum, d) => sum + Math.abs(d - mean), 0) / (distances.length * mean);
}

/** Points stand in the order of their first coordinate: beyond the best distance so far along it there is no nearer one. */
function toNearest(points: readonly (readonly number[])[], i: number): number {
  const from = points[i]!;
  let nearest = Number.POSITIVE_INFINITY;
  for (const step of [-1, 1]) {
    for (let j = i + step; j >= 0 && j < points.length; j += step) {
      const other = points[j]!;
      if (Math.abs(other[0]! - from[0]!) >= nearest) break;
      nearest = Math.min(nearest, Math.hypot(...other.map((x, o) => x - from[o]!)));
    }
  }
  return nearest;
}
