import { BEYOND_SUPPLY, FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigTemplate } from '../model/study.ts';
import { atSupplyLimit, liftCurve } from '../rig/lift-curve.ts';
import type { LiftPoint } from './report-input.ts';

/** Enough for a smooth line, few enough for a finite disc that takes its time. */
const POINTS = 61;
/** Just above lift-off: a rig that stands higher there than this share of its highest has jumped. */
const ABOVE = 1 + 1e-6;
const JUMP = 0.02;

/**
 * Height against current from near zero up to `highest` (A rms), for a picture. Lift-off itself is one of the points, with
 * height 0. The curve ends at the supply's limit; it goes on, marked as beyond, where the study allows drives
 * beyond, or to the current `operating` of a design that is driven beyond. Empty for a rig that is clamped, and where a
 * current has no answer.
 */
export function floatingCurve(
  rig: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  highest: number,
  operating: number,
): LiftPoint[] {
  if (!(highest > 0) || slots[SLOT.floats] === FLOATS.nothing) return [];
  const limit = atSupplyLimit(rig, slots)?.current ?? Number.POSITIVE_INFINITY;
  const allowed = slots[SLOT.beyondSupply] === BEYOND_SUPPLY.allowed;
  const end = Math.min(highest, allowed ? highest : Math.max(limit, operating));
  const grid = Array.from({ length: POINTS }, (_, i) => (highest * (i + 1)) / POINTS);
  const sampled = liftCurve(rig, slots, [...grid.filter((current) => current < end), end]);
  if (!sampled.every(({ height }) => Number.isFinite(height))) return [];
  const points: LiftPoint[] = sampled.map(({ current, height }) => ({ current, height }));
  const liftoff = sampled[0]!.results[Q.liftoff_current]!;
  const extras = [ABOVE * liftoff, limit].filter((current) => current < end);
  for (const { current, height } of liftCurve(rig, slots, extras)) {
    const top = Math.max(...points.map((point) => point.height));
    if (Number.isFinite(height) && (current === limit || height > JUMP * top))
      points.push({ current, height });
  }
  if (liftoff < end) points.push({ current: liftoff, height: 0 });
  // of two at one current the sampled one goes: the others are exact
  const apart = points.filter(
    ({ current }, i) => !points.some((other, j) => j > i && other.current === current),
  );
  return apart
    .sort((a, b) => a.current - b.current)
    .map((point) => {
      if (point.current > limit * ABOVE) return { ...point, beyond: true };
      return point.current === limit ? { ...point, atLimit: true } : point;
    });
}
