import type { CoupledModes } from '../kernel/motion/coupled-modes.ts';
import type { MovingCoilRig } from '../kernel/motion/moving-coil.ts';
import { SLOT } from '../model/inputs.ts';
import type { OperatingPoint } from './requested-law.ts';

/** A design as motion in time takes it: its circuit and mass, and the plate's modes as its coil sees them. */
export interface MovingRigModel {
  readonly rig: MovingCoilRig;
  readonly modes: CoupledModes;
}

/** Gaps up to so many times the coil's radius are computed; what flies higher feels nothing. */
const FARTHEST_RADII = 6;

/**
 * Null where the plate is magnetic or cannot be resolved. The temperature is held; the winding's resistance is that at the
 * operating gap and the supply's frequency.
 */
export function createMovingRig(point: OperatingPoint): MovingRigModel | null {
  const { rig, model } = point;
  const { slots, coil } = rig;
  const standoff = model.nearest;
  const modes = point.modes(Math.max(FARTHEST_RADII * coil.outerRadius, 20 * standoff));
  if (modes === null) return null;
  return {
    rig: {
      mass: model.mass,
      drag: model.drag,
      standoff,
      restitution: slots[SLOT.restitution]! || 0,
      held: !model.floats,
      resistance: model.windingResistance + model.seriesResistance,
      freeInductance: model.freeInductance,
      capacitance: model.seriesCapacitance,
    },
    modes,
  };
}
