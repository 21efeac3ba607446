import type { GapCoupling } from './gap-coupling.ts';

/**
 * The gap above `standoff` at which the slope Re(d dL/d gap) has fallen to `target` (H/m): the equilibrium of a
 * coil at constant current, target = 2 weight / I^2. The slope at the standoff must exceed the target.
 *
 * Over non-magnetic plates the slope is a sum of decaying exponentials with positive weights, so its logarithm is
 * nearly straight and Halley's method on it (E. Halley 1694; Newton's with the second derivative) closes in within
 * three or four steps. Over magnetic plates the slope may first rise (the attraction dies sooner than the
 * repulsion); as a sum of exponentials whose weights change sign once, it meets the target once above the standoff
 * (Laguerre's rule of signs), and a bracket keeps the steps inside.
 *
 * Returns the gap in m to 1e-12 relative (between stations as they have it), or NaN when it lies beyond `limit`.
 */
export function equilibriumGap(
  coupling: GapCoupling,
  target: number,
  standoff: number,
  limit: number,
): number {
  const known = coupling.gapOf === undefined ? Number.NaN : coupling.gapOf(target);
  if (!Number.isNaN(known)) return known;
  let low = standoff;
  let high = Number.POSITIVE_INFINITY;
  let gap = standoff;
  for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
    coupling.evaluateLift(gap);
    const { slopeRe: slope, curvatureRe: curvature, jerkRe: jerk } = coupling;
    if (slope >= target) low = gap;
    else high = gap;
    if (low > limit) return Number.NaN;
    let next = Number.NaN;
    if (slope > 0 && curvature < 0) {
      // f = ln(slope / target); f' and f'' / 2 over f'
      const newton = (slope * Math.log(slope / target)) / curvature;
      const bend = (newton * (jerk / curvature - curvature / slope)) / 2;
      next = gap - newton / Math.max(1 - bend, 0.5);
    }
    if (Math.abs(next - gap) <= CLOSE * gap) return Math.max(next, standoff);
    if (!(next > low && next < high)) next = high === Number.POSITIVE_INFINITY ? 2 * low : (low + high) / 2;
    if (high - low <= ROUNDING * low) return next;
    gap = next;
  }
  return Number.NaN;
}

/** Halley's method takes three or four steps; bisection from the widest bracket about fifty. */
const MAX_ITERATIONS = 200;

/** A bracket this narrow (relative) cannot be halved much further. */
const ROUNDING = 1e-13;

/** The error left after a step this small, cubic as Halley's are, is below rounding. */
const CLOSE = 1e-5;
