import type { RigTemplate } from '../model/study.ts';
import type { DesignWarming } from '../report/report-input.ts';
import { followWarming } from '../rig/follow-warming.ts';
import { warmCurve, warmTopics } from './describe-warming.ts';

/**
 * One design set cold at its own drive and left alone, until it is steady, its fuse has blown or a day is over; null where it
 * has no operating point.
 */
export function designWarming(
  layout: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
): DesignWarming | null {
  const warming = followWarming(layout, slots, null);
  if (warming === null || warming.moments.length < 2) return null;
  return {
    held: warming.voltageHeld ? 'supply voltage' : 'current',
    rows: warmTopics(warming, slots),
    ...warmCurve(warming, slots),
  };
}
