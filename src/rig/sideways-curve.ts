import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigTemplate } from '../model/study.ts';
import type { KeptPlates } from './kept-plates.ts';
import { createLaws } from './laws.ts';
import { pushedAside, USUAL_SHIFT } from './sideways.ts';

/** Beside the axis: shift, m, and outward force over the weight of what floats. */
export interface SidewaysPoint {
  readonly shift: number;
  readonly overWeight: number;
}

/** Shifts of a curve, the last at this share of the coil's outer radius. */
const POINTS = 24;
const FARTHEST = 0.5;
/** A curve below this share of the weight is none. */
const NOTHING = 1e-3;

/**
 * Outward force of a design that floats against its shift, from the axis on; empty where nothing pushes it or nothing is
 * known. The design stays at its operating gap.
 */
export function sidewaysCurve(
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  kept?: KeptPlates,
): SidewaysPoint[] {
  const laws = createLaws(plateLayers, windings, [], undefined, kept);
  laws.evaluate(slots);
  const point = laws.operatingPoint;
  if (point === null) return [];
  const { results } = laws;
  const force = pushedAside(point);
  const weight = weightOf(results);
  const at = (shift: number): SidewaysPoint => ({ shift, overWeight: force(shift) / weight });
  const radius = results[Q.coil_outer_radius]!;
  const own = slots[SLOT.sidewaysShift]!;
  if (Number.isNaN(at(Number.isNaN(own) ? USUAL_SHIFT * radius : own).overWeight)) return [];
  const farthest = Math.max(FARTHEST * radius, Number.isNaN(own) ? 0 : own);
  const points = Array.from({ length: POINTS }, (_, i) => at((farthest * (i + 1)) / POINTS));
  return points.some(({ overWeight }) => Math.abs(overWeight) >= NOTHING)
    ? [{ shift: 0, overWeight: 0 }, ...points]
    : [];
}

/** Of a design whose `sideways_force` was requested: where the study looks at it; null where nothing pushes it. */
export function sidewaysPoint(slots: Float64Array, results: Float64Array): SidewaysPoint | null {
  const own = slots[SLOT.sidewaysShift]!;
  const overWeight = results[Q.sideways_force]! / weightOf(results);
  if (!(Math.abs(overWeight) >= NOTHING)) return null;
  return { shift: Number.isNaN(own) ? USUAL_SHIFT * results[Q.coil_outer_radius]! : own, overWeight };
}

/** What a fall from this height sets free, over the height. */
function weightOf(results: Float64Array): number {
  return results[Q.fall_energy]! / results[Q.height]!;
}
