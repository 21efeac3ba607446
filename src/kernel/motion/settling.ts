/**
 * The first time from which a curve stays within a tolerance of a value, s; Infinity where it has not by its end. The last
 * `hold` seconds must lie within, so that a curve that happens to pass is not taken for one that stays.
 * @param values at even times, from 0 on @param step s
 */
export function settlingTime(
  values: ArrayLike<number>,
  step: number,
  target: number,
  tolerance: number,
  hold: number,
): number {
  let last = values.length - 1;
  while (last >= 0 && Math.abs(values[last]! - target) <= tolerance) last--;
  const settled = (last + 1) * step;
  return (values.length - 1) * step - settled >= hold ? settled : Number.POSITIVE_INFINITY;
}
