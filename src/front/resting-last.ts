import { STATUS } from '../model/status.ts';
import { createFrontArchive, type FrontSoFar } from './front-archive.ts';
import type { Sense } from './senses.ts';

/**
 * The front of rows of which those that rest count only where no other is feasible: a coil that never leaves the plate is
 * lighter than any that does, and is not what a study of floating coils looks for. Two archives, one of the rows
 * that rest and one of all others.
 */
export interface RestingLast {
  /** Adds rows with one column an objective; those whose `feasible` is not 0 are candidates. */
  add(rows: Candidates, columns: readonly Float64Array[]): void;
  merge(fronts: FrontsSoFar): void;
  fronts(): FrontsSoFar;
  /** Of the others, or of those that rest where there is no other. */
  front(): FrontSoFar;
}

export interface Candidates {
  readonly first: number;
  readonly feasible: Uint8Array;
  /** Codes of STATUSES. */
  readonly status: Uint8Array;
}

export interface FrontsSoFar {
  readonly others: FrontSoFar;
  readonly resting: FrontSoFar;
}

export function createRestingLast(senses: readonly Sense[]): RestingLast {
  const others = createFrontArchive(senses);
  const resting = createFrontArchive(senses);
  return {
    add({ first, feasible, status }, columns) {
      others.add(
        first,
        columns,
        feasible.map((is, i) => (status[i] === STATUS.rests ? 0 : is)),
      );
      const rests = feasible.map((is, i) => (status[i] === STATUS.rests ? is : 0));
      if (rests.includes(1)) resting.add(first, columns, rests);
    },
    merge(fronts) {
      others.merge(fronts.others);
      resting.merge(fronts.resting);
    },
    fronts: () => ({ others: others.front(), resting: resting.front() }),
    front() {
      const found = others.front();
      return found.ids.length > 0 ? found : resting.front();
    },
  };
}
