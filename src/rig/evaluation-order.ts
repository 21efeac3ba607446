import { createLevelPlaces } from '../model/level-places.ts';
import type { DesignBatch } from '../model/rows.ts';
import type { Varied } from '../model/study.ts';

/**
 * In which order to evaluate the designs of a batch, so that those of one coil follow one another, among them those
 * of one plate, and what depends on these alone is computed once. Rows keep their places, and no bit of them depends
 * on it. Null where their own order is as good or levels are not listed (a search).
 */
export type EvaluationOrder = (batch: DesignBatch) => Uint32Array | null;

/** What changes the most with it comes first: the coil, then the plate and the frequency, then the drive. */
function rank({ path }: Varied): number {
  if (/^(coil|floats)\b/.test(path)) return 0;
  return /^(plate|supply\.frequency)\b/.test(path) ? 1 : 2;
}

export function createEvaluationOrder(vary: readonly Varied[]): EvaluationOrder {
  const ranks = vary.map(rank);
  const isInOrder = ranks.every((one, v) => v === 0 || ranks[v - 1]! <= one);
  const isListed = vary.every((varied) => varied.kind === 'choice' || varied.between === undefined);
  if (isInOrder || !isListed) return () => null;

  const width = vary.length;
  const places = vary.map((varied) => (varied.kind === 'choice' ? null : createLevelPlaces(varied.levels)));
  /** How much a step on an axis adds to a design's place in the order. */
  const strides = new Float64Array(width);
  let stride = 1;
  for (const v of [...vary.keys()].sort((a, b) => ranks[b]! - ranks[a]! || b - a)) {
    strides[v] = stride;
    stride *= vary[v]!.levels.length;
  }
  const combinations = stride;

  return ({ count, values }) => {
    // place and number of a design travel in one double
    if (combinations * count > Number.MAX_SAFE_INTEGER) return null;
    const keys = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      let place = 0;
      for (let v = 0; v < width; v++) {
        const value = values[i * width + v]!;
        const level = places[v]?.(value) ?? value;
        // no design of the grid
        if (level < 0) return null;
        place += strides[v]! * level;
      }
      keys[i] = place * count + i;
    }
    keys.sort();
    const order = new Uint32Array(count);
    for (let n = 0; n < count; n++) order[n] = keys[n]! % count;
    return order;
  };
}
