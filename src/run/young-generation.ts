import { setFlagsFromString } from 'node:v8';

/**
 * Lets each thread of this process clear its own nursery alone. V8 otherwise wakes helper threads for it, thousands of
 * times a run, for what takes a third of a millisecond: a million designs took 6 % longer with two workers on two cores, and
 * no less time with one. V8 looks at each collection, so it may be set at any time.
 */
export function clearNurseriesAlone(): void {
  setFlagsFromString('--no-parallel-scavenge');
}
