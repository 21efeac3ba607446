import { FLOATS, SLOT } from '../model/inputs.ts';
import type { RigTemplate } from '../model/study.ts';
import { liftCurve } from '../rig/lift-curve.ts';
import type { LiftPoint } from './report-input.ts';

/** Enough for a smooth line, few enough for a finite disc that takes its time. */
const POINTS = 61;

/**
 * Height against current from near zero up to `highest` (A rms), for a picture. Empty for a rig that is
 * clamped, and where a current has no answer.
 */
export function floatingCurve(
  rig: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  highest: number,
): LiftPoint[] {
  if (!(highest > 0) || slots[SLOT.floats] === FLOATS.nothing) return [];
  const currents = Float64Array.from({ length: POINTS }, (_, i) => (highest * (i + 1)) / POINTS);
  const points = liftCurve(rig, slots, currents).map(({ height }, i) => ({ current: currents[i]!, height }));
  const isKnown = points.every(({ height }) => Number.isFinite(height));
  return isKnown ? points : [];
}
