import { hypervolume, MOST_COSTS } from '../math/hypervolume.ts';
import type { Candidate } from './candidate.ts';

/** The feasible candidates seen so far that no other dominates, one of each costs, and how much they grew of late. */
export interface GrowingFront {
  /** Whether it joins them. */
  add(candidate: Candidate): boolean;
  /** Marks the end of a generation. */
  mark(): void;
  /**
   * By what share the hypervolume grew over the last so many marks, in the box that the front spans, a tenth added on
   * the worse side; 1 while there is no front, or too few marks, or too many objectives.
   */
  growth(marks: number): number;
}

/** The box reaches beyond the worst of the front by this share of its extent, so that the extremes count, too. */
const MARGIN = 0.1;

export function createGrowingFront(): GrowingFront {
  let front: Float64Array[] = [];
  const past: (readonly Float64Array[])[] = [];
  return {
    add({ costs, violation }) {
      if (violation > 0 || front.some((other) => isNoWorse(other, costs))) return false;
      front = front.filter((other) => !isNoWorse(costs, other));
      front.push(costs);
      return true;
    },
    mark() {
      past.push(front);
    },
    growth(marks) {
      const before = past.at(-1 - marks);
      const now = past.at(-1);
      if (!before?.length || !now || now[0]!.length > MOST_COSTS) return 1;
      const reference = Array.from(now[0]!, (_, o) => referenceOf(now, before, o));
      const grown = hypervolume(columns(now), reference);
      return grown > 0 ? 1 - hypervolume(columns(before), reference) / grown : 1;
    },
  };
}

function isNoWorse(a: Float64Array, b: Float64Array): boolean {
  for (let o = 0; o < a.length; o++) if (a[o]! > b[o]!) return false;
  return true;
}

/** With one objective the front is a point and spans nothing: the box then reaches to where it was before. */
function referenceOf(now: readonly Float64Array[], before: readonly Float64Array[], o: number): number {
  const costs = now.map((row) => row[o]!);
  if (now[0]!.length === 1) costs.push(before[0]![0]!);
  const [best, worst] = [Math.min(...costs), Math.max(...costs)];
  return worst > best ? worst + MARGIN * (worst - best) : worst + (Math.abs(worst) || 1);
}

function columns(front: readonly Float64Array[]): Float64Array[] {
  return Array.from(front[0]!, (_, o) => Float64Array.from(front, (row) => row[o]!));
}
