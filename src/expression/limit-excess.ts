import type { Comparison } from '../model/program.ts';

/**
 * How far a limit that is not met is from being met: above 0, up to 1 the farther it is. With e the amount by which the left
 * side is on the wrong side of the right one, it is e / (e + |right|): for small e the share of the bound by which it
 * is exceeded, whatever the unit. A bound of zero has no scale of its own; e then stands beside 1 in SI units. An
 * empty value (NaN) is as far as can be.
 */
export function limitExcess(left: number, right: number): number {
  const excess = Math.abs(left - right);
  if (!Number.isFinite(excess)) return 1;
  // a strict limit may be unmet by nothing at all
  return Math.max(Number.EPSILON, excess / (excess + (Math.abs(right) || 1)));
}

/**
 * How far the left side is on the wrong side of the right one, as a share of it (in SI units beside a bound of zero): below 0
 * where it is on the right side. Smooth wherever both sides are. NaN where one is empty.
 */
export function limitGap(left: number, comparison: Comparison, right: number): number {
  const excess = comparison === '<' || comparison === '<=' ? left - right : right - left;
  return excess / (Math.abs(right) || 1);
}
