import { SLOT } from '../model/inputs.ts';
import type { MeasuredPoint } from '../model/measured.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { isEvaluated } from '../model/status.ts';
import type { RigTemplate } from '../model/study.ts';
import { createLaws } from './laws.ts';

/** A rig's inputs set otherwise. */
export type Settings = readonly (readonly [slot: number, value: number])[];

/**
 * Computes what should have been measured: one rig, driven and set as a measured point states, with some of its
 * inputs (`changes`) at other values.
 * @param slots the rig's inputs, SI, with their defaults (`createDesignReader`); left as they are
 */
export function createPredictor(
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
): Predictor {
  const laws = createLaws(plateLayers, windings);
  const driven = slots.slice();
  return {
    evaluate({ drive, settings }, changes, shift = 0) {
      driven.set(slots);
      for (const [slot, value] of changes) driven[slot] = value;
      for (const [slot, value] of settings) driven[slot] = value;
      if (drive.kind !== 'own') {
        driven[SLOT.driveCurrent] = drive.kind === 'current' ? drive.value + shift : Number.NaN;
        driven[SLOT.driveVoltage] = drive.kind === 'current' ? Number.NaN : drive.value + shift;
      }
      if (drive.kind === 'terminal voltage') {
        // nothing between the outlet and the coil's terminals
        driven[SLOT.seriesResistance] = 0;
        driven[SLOT.seriesCapacitance] = Number.NaN;
      }
      laws.evaluate(driven);
      if (!isEvaluated(laws.status)) return NO_RESULTS;
      return laws.results;
    },
  };
}

export interface Predictor {
  /** One value per quantity, SI, NaN where there is none; overwritten by the next call. `shift` is added to the drive. */
  evaluate(point: MeasuredPoint, changes: Settings, shift?: number): Float64Array;
}

const NO_RESULTS = new Float64Array(QUANTITIES.length).fill(Number.NaN);
