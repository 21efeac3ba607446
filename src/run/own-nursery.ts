import { setFlagsFromString } from 'node:v8';

/**
 * Lets each thread clear its own nursery alone. V8 otherwise wakes helper threads for it, thousands of times a run; where
 * every core has a worker already that only makes them wait for each other: 2 of 31 s for a million designs on two
 * cores, and 1.5 of 48 s with one worker. Read by V8 at each collection, so it may be said at any time.
 */
export function clearNurseriesAlone(): void {
  setFlagsFromString('--no-parallel-scavenge');
}
