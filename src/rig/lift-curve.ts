import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { isEvaluated } from '../model/status.ts';
import type { RigTemplate } from '../model/study.ts';
import type { KeptPlates } from './kept-plates.ts';
import { createLaws, type Laws } from './laws.ts';

/** A design at one drive. */
export interface DrivenPoint {
  /** Of STATUSES and REASONS. */
  readonly status: number;
  readonly reason: number;
  /** A rms. */
  readonly current: number;
  /** m above rest; 0 at rest and clamped, NaN where there is no answer. */
  readonly height: number;
  /** One value per quantity, SI; NaN where not applicable. */
  readonly results: Float64Array;
}

type Layout = Pick<RigTemplate, 'plateLayers' | 'windings'>;

/**
 * One design at each of these currents (A rms, held), whatever its own drive.
 * @param slots its inputs, SI, with their defaults (`createDesignReader`); left as they are
 */
export function liftCurve(
  layout: Layout,
  slots: Float64Array,
  currents: ArrayLike<number>,
  requested: readonly number[] = [],
): DrivenPoint[] {
  const drive = createDriver(slots, lawsOf(layout, requested));
  return Array.from(currents, (current) => drive(current, Number.NaN));
}

/** One design as its own drive leaves it, with these quantities on request (`ALL_ON_REQUEST` for a card). */
export function atOwnDrive(
  layout: Layout,
  slots: Float64Array,
  requested: readonly number[] = [],
  kept?: KeptPlates,
): DrivenPoint {
  const drive = createDriver(slots, lawsOf(layout, requested, kept));
  return drive(slots[SLOT.driveCurrent]!, slots[SLOT.driveVoltage]!);
}

/** One design at the limit of its supply; null where the supply has none, or no answer is found at it. */
export function atSupplyLimit(layout: Layout, slots: Float64Array): DrivenPoint | null {
  const limits = [SLOT.maxVoltage, SLOT.maxCurrent, SLOT.fuseRating];
  if (limits.every((slot) => Number.isNaN(slots[slot]!))) return null;
  const point = createDriver(slots, lawsOf(layout))(Number.NaN, Number.NaN);
  const answered = isEvaluated(point.status);
  return answered ? point : null;
}

function lawsOf({ plateLayers, windings }: Layout, requested?: readonly number[], kept?: KeptPlates): Laws {
  return createLaws(plateLayers, windings, requested, undefined, kept);
}

/** Evaluates one design at a current or a voltage; with neither, at the supply's limit. */
export function createDriver(slots: Float64Array, laws: Laws) {
  const driven = slots.slice();
  return (current: number, voltage: number): DrivenPoint => {
    driven[SLOT.driveCurrent] = current;
    driven[SLOT.driveVoltage] = voltage;
    laws.evaluate(driven);
    const results = laws.results.slice();
    return {
      status: laws.status,
      reason: laws.reason,
      current: results[Q.current]!,
      height: results[Q.height]!,
      results,
    };
  };
}
