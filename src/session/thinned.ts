/** Of the room for designs what the front may take. */
const SHARE_OF_FRONT = 0.8;

/** Designs that a page holds. */
export interface Thinned {
  /** Ascending, each once. */
  readonly ids: number[];
  /** Of the front so many are among them because they are on it. */
  readonly ofFront: number;
}

/**
 * Which of many designs a page holds: those of the front, of a long one as many as four fifths of the room take, evenly along
 * it; and in the rest of the room designs evenly through the plan.
 * @param total designs of the study
 * @param front ids, best in the first objective first
 * @param most designs that there is room for
 */
export function thinned(total: number, front: ArrayLike<number>, most: number): Thinned {
  if (total <= most) return { ids: Array.from({ length: total }, (_, id) => id), ofFront: front.length };
  const taken = evenly(front.length, Math.floor(SHARE_OF_FRONT * most));
  const kept = new Set(taken.map((at) => front[at]!));
  for (const id of evenly(total, most - kept.size)) kept.add(id);
  return { ids: [...kept].sort((a, b) => a - b), ofFront: taken.length };
}

/** At most `most` of the numbers below `count`, evenly. */
function evenly(count: number, most: number): number[] {
  const size = Math.min(count, most);
  return Array.from({ length: size }, (_, i) => Math.floor((i * count) / size));
}
