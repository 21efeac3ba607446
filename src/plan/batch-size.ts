import { EDGES, INPUTS, SLOT } from '../model/inputs.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Study } from '../model/study.ts';

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

/** Designs in a batch of a plan of `total` designs: a function of the study alone. */
export function batchSize(total: number, largest = LARGEST): number {
  return Math.max(SMALLEST, Math.min(largest, Math.ceil(total / PIECES)));
}

/** Most designs of a batch of a study: fewer where they are slow, so that little is under way when a run is killed. */
export function largestBatch({
  rig,
  vary,
  tolerance,
  requested = [],
}: Pick<Study, 'rig' | 'vary' | 'tolerance' | 'requested'>): number {
  const varies = (path: string) => vary.some((varied) => varied.path === path);
  const { slots } = rig;
  const ignored = slots[SLOT.plateEdge] === EDGES.ignored && !varies('plate.edge');
  const sizes = [SLOT.plateRadius, SLOT.plateSquare, SLOT.plateSides];
  const isDisc = !ignored && sizes.some((slot) => !Number.isNaN(slots[slot]!) || varies(INPUTS[slot]!.path));
  const effort = 1 + Math.max(0, ...requested.map((index) => QUANTITIES[index]!.effort));
  return Math.ceil(LARGEST / (isDisc ? DISC : 1) / (tolerance ? TOLERANCES : 1) / effort);
}
