import { EDGES, INPUTS, SLOT } from '../model/inputs.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { DesignBatch } from '../model/rows.ts';
import type { Study, Task } from '../model/study.ts';
import { guessCost } from '../rig/design-cost.ts';

/**
 * A batch of this many designs takes some 0.1 s and is a part of its own, which a worker makes on its own thread. Its
 * trip to a worker and back (post, wake, arrays for its rows) costs 0.1 to 0.3 ms beside 15 to 60 us a
 * design (`npm run bench` measures it). Four are a chunk of the tables.
 */
const LARGEST = 4000;
/** Below this the round trip would show: 16 designs cost at least as much as it does. */
const SMALLEST = 16;
/** A small study is cut into this many batches, so that every thread has work until the end. */
const PIECES = 64;
/** How many usual designs, roughly, one costs at most whose plate's edge is resolved, and one evaluated with tolerances. */
const DISC = 16;
const TOLERANCES = 64;
/** No batch is to take longer than this, s, as far as inputs show, so that rows reach the disk while designs are slow. */
const LONGEST = 3;

/** Designs in a batch of a plan of `total` designs: a function of the study alone. */
export function batchSize(total: number, largest = LARGEST): number {
  // where designs are slow, fewer of them take as long
  const smallest = Math.max(1, Math.round((SMALLEST * largest) / LARGEST));
  return Math.max(smallest, Math.min(largest, Math.ceil(total / PIECES)));
}

/**
 * Most designs of a batch of a study: fewer where they are slow, so that little is under way when a run is killed.
 * `sample`: designs of the study, by which it is known how slow.
 */
export function largestBatch(study: Task, sample: () => DesignBatch): number {
  const { tolerance, requested = [] } = study;
  const discs = mayHaveDiscs(study);
  const effort = 1 + Math.max(0, ...requested.map((index) => QUANTITIES[index]!.effort));
  const usual = Math.ceil(LARGEST / (discs ? DISC : 1) / (tolerance ? TOLERANCES : 1) / effort);
  return discs ? Math.max(1, Math.min(usual, Math.floor(LONGEST / guessCost(study, sample())))) : usual;
}

/** Whether a plate's edge may be resolved. */
function mayHaveDiscs({ rig, vary }: Pick<Study, 'rig' | 'vary'>): boolean {
  const varies = (path: string) => vary.some((varied) => varied.path === path);
  const { slots } = rig;
  const ignored = slots[SLOT.plateEdge] === EDGES.ignored && !varies('plate.edge');
  const sizes = [SLOT.plateRadius, SLOT.plateSquare, SLOT.plateSides];
  return !ignored && sizes.some((slot) => !Number.isNaN(slots[slot]!) || varies(INPUTS[slot]!.path));
}
