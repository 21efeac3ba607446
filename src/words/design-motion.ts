import { SLOT } from '../model/inputs.ts';
import type { RigTemplate } from '../model/study.ts';
import type { DesignMotion } from '../report/report-input.ts';
import type { KeptPlates } from '../rig/kept-plates.ts';
import { summariseMotion } from '../rig/motion-summary.ts';
import { prepareMotion } from '../rig/prepare-motion.ts';
import { HIGHEST_FREQUENCY } from '../rig/switch-on-motion.ts';
import { driveWords, motionTopics } from './describe-motion.ts';

/** As long as anybody watches a picture, s. */
const WATCHED = 3;

/** One design switched on at once at its own drive, for a report; null where it does not float or is not computed. */
export function designMotion(
  layout: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  kept?: KeptPlates,
): DesignMotion | null {
  if (slots[SLOT.frequency]! > HIGHEST_FREQUENCY) return null;
  const request = { drive: null, cutAt: Number.POSITIVE_INFINITY, phase: null, step: null };
  const prepared = prepareMotion(layout, slots, request, kept);
  if ('refused' in prepared || Number.isNaN(prepared.steadyGap)) return null;
  const { run, standoff, headroom, drive } = prepared;
  run.advanceTo(WATCHED);
  const summary = summariseMotion(prepared);
  return {
    drive: driveWords(drive, true),
    rows: motionTopics(summary),
    time: run.samples.time,
    height: run.samples.gap.map((gap) => gap - standoff),
    steadyHeight: summary.steadyHeight,
    headroom,
  };
}
