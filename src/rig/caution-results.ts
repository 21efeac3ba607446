import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigTemplate } from '../model/study.ts';
import { atOwnDrive } from './lift-curve.ts';

/** Quantities on request that cautions look at and that cost little. */
const CHEAP = [Q.bounce_growth, Q.guide_damping, Q.landing_speed];
/** The jump at switch-on costs some 0.1 s: only where there is something above. */
const JUMP = [Q.overshoot];

/**
 * The results of a row with what cautions look at besides, where the row does not hold it.
 * @param slots the design's inputs, SI, with their defaults
 */
export function cautionResults(
  layout: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  results: Float64Array,
): Float64Array {
  if (!(results[Q.height]! > 0)) return results;
  const wanted = Number.isNaN(slots[SLOT.headroom]!) ? CHEAP : [...CHEAP, ...JUMP];
  const missing = wanted.filter((index) => Number.isNaN(results[index]!));
  if (missing.length === 0) return results;
  const computed = atOwnDrive(layout, slots, missing).results;
  const whole = results.slice();
  for (const index of missing) whole[index] = computed[index]!;
  return whole;
}
