import type { CoilWinding } from './disc/coil-source.ts';

/**
 * Whether the key of something remembered holds this value already; it does afterwards. A key lists every number that the
 * remembered thing depends on, so that remembering never changes a bit of it. NaN is never held.
 */
export function noteValue(key: Float64Array, at: number, value: number): boolean {
  const same = key[at] === value;
  key[at] = value;
  return same;
}

/** How many numbers of a key a winding takes. */
export const WINDING_VALUES = 6;

/** The same of all that a coil's field depends on in one of its windings: WINDING_VALUES numbers from `at` on. */
export function noteWinding(key: Float64Array, at: number, winding: CoilWinding): boolean {
  const { innerRadius, outerRadius, height, turns, offset, sense } = winding;
  let same = noteValue(key, at, innerRadius);
  same = noteValue(key, at + 1, outerRadius) && same;
  same = noteValue(key, at + 2, height) && same;
  same = noteValue(key, at + 3, turns) && same;
  same = noteValue(key, at + 4, offset) && same;
  return noteValue(key, at + 5, sense) && same;
}
