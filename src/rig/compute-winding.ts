import { GRAVITY } from '../kernel/constants.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { Geometry } from './geometry.ts';
import type { RigState } from './state.ts';

/** The winding and what floats: sizes, mass, weight, angular frequency. */
export function computeWinding(rig: RigState, geometry: Geometry): void {
  const { slots, results } = rig;
  const { coil } = geometry;
  rig.omega = 2 * Math.PI * slots[SLOT.frequency]!;
  rig.floating = slots[SLOT.floats]!;
  rig.floats = rig.floating !== FLOATS.nothing;
  rig.mass = rig.floating === FLOATS.plate ? geometry.plateMass : coil.mass;
  rig.weight = rig.mass * GRAVITY;
  results[Q.wire_length] = coil.length;
  results[Q.coil_mass] = coil.mass;
  results[Q.coil_outer_radius] = coil.outerRadius;
  results[Q.winding_height] = coil.height;
  results[Q.space_factor] = coil.spaceFactor;
}
