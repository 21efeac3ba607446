/**
 * A batch's trip to a worker and back (post, wake, fresh arrays for its rows, transfer) costs 0.1 to 0.3 ms beside 15 to
 * 60 us a design to evaluate: 1024 designs keep it under 2 %, 625 under 3 % (`npm run bench` measures it).
 */
const LARGEST = 1024;
/** Below this the round trip would show: 16 designs cost at least as much as it does. */
const SMALLEST = 16;
/** A small study is cut into this many batches, so that every thread has work until the end. */
const PIECES = 64;

/** Designs in a batch of a plan of `total` designs: a function of the study alone. */
export function batchSize(total: number): number {
  return Math.min(LARGEST, Math.max(SMALLEST, Math.ceil(total / PIECES)));
}
