/**
 * Whether the key of something remembered holds this value already; it does afterwards. A key lists every number that the
 * remembered thing depends on, so that remembering never changes a bit of it. NaN is never held.
 */
export function noteValue(key: Float64Array, at: number, value: number): boolean {
  const same = key[at] === value;
  key[at] = value;
  return same;
}
