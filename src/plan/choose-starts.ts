import type { Candidate } from './candidate.ts';
import { type Space, toPoint } from './space.ts';

/** Two starts with the same choices are at least this far apart on some axis, as a share of it, while there are enough. */
const APART = 0.1;
/** Below this they would end in the same place anyway. */
const NEAREST = 1e-3;

/**
 * The `count` best of `ranked`, best first, that are worth starting from: each combination of choices (metals) has its
 * turn, since a descent mostly keeps to its own, and of one combination no two lie close together. Fewer when there
 * are no more.
 */
export function chooseStarts(space: Space, ranked: readonly Candidate[], count: number): Candidate[] {
  const choices = [...space.axes.keys()].filter((a) => space.axes[a]!.kind === 'choice');
  const groups = new Map<string, Group>();
  for (const candidate of ranked) {
    const key = choices.map((a) => candidate.design[a]).join();
    const group = groups.get(key) ?? createGroup(space);
    groups.set(key, group);
    group.add(candidate);
  }
  const starts: Candidate[] = [];
  for (let apart = APART; apart > NEAREST && starts.length < count; apart /= 2) {
    for (const group of groups.values()) group.rewind();
    for (let found = true; found; ) {
      found = false;
      for (const group of groups.values()) {
        const next = starts.length < count ? group.next(apart) : null;
        if (next) starts.push(next);
        found ||= next !== null;
      }
    }
  }
  return starts;
}

interface Group {
  add(candidate: Candidate): void;
  /** Looks again at those passed over. */
  rewind(): void;
  /** The next that is at least so far from all chosen before; null when there is none. */
  next(apart: number): Candidate | null;
}

function createGroup(space: Space): Group {
  const members: Candidate[] = [];
  const chosen: Float64Array[] = [];
  let at = 0;
  return {
    add: (candidate) => members.push(candidate),
    rewind() {
      at = 0;
    },
    next(apart) {
      while (at < members.length) {
        const candidate = members[at++]!;
        const point = toPoint(space, candidate.design);
        if (chosen.every((other) => distance(point, other) >= apart)) {
          chosen.push(point);
          return candidate;
        }
      }
      return null;
    },
  };
}

function distance(a: Float64Array, b: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < a.length; i++) largest = Math.max(largest, Math.abs(a[i]! - b[i]!));
  return largest;
}
