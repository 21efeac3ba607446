import { GRAVITY } from '../kernel/constants.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';

/** Average and peak force on a clamped plate over the weight of plate, extra mass (plateMass, kg) and load. */
export function computePan({ slots, results }: RigState, plateMass: number): void {
  const water = slots[SLOT.loadWater]!;
  const weight = (plateMass + (Number.isNaN(water) ? 0 : water)) * GRAVITY;
  const average = results[Q.lift_force]!;
  results[Q.pan_lift_over_weight] = average / weight;
  results[Q.pan_peak_lift_over_weight] = (average + results[Q.double_frequency_force]!) / weight;
}
