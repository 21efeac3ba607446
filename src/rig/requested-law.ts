import type { GapCoupling } from '../kernel/gap-coupling.ts';
import type { GapResponse } from '../kernel/gap-response.ts';
import type { CoupledModes } from '../kernel/motion/coupled-modes.ts';
import type { QuantityName } from '../model/quantities.ts';
import type { RigModel } from './rig-model.ts';
import type { SidewaysPlates } from './sideways-plates.ts';
import type { RigState } from './state.ts';
import type { WindingResistance } from './winding-resistance.ts';

/** A design at its operating point, as the laws on request find it. */
export interface OperatingPoint {
  readonly rig: RigState;
  /** The coil over its plate, evaluated at the operating gap. */
  readonly over: GapCoupling;
  /** The same design as a function of the gap. */
  readonly model: RigModel;
  /** Of the windings, at the operating gap. */
  readonly resistance: WindingResistance;
  /** Discs for a coil beside its axis, shared by the laws that look at it there. */
  readonly sideways: SidewaysPlates;
  /** The drive's own constraint: what stays as it is when the coil moves. */
  readonly voltageHeld: boolean;
  /** The same plate at the operating gap and complex frequencies. */
  respond(): GapResponse;
  /** The plate's modes as the coil couples to them from the standoff up; null where it is magnetic or cannot be resolved. */
  modes(farthest: number): CoupledModes | null;
}

/** A law that is evaluated only where a study names one of its quantities. It writes them to the results of the rig. */
export interface RequestedLaw {
  readonly quantities: readonly QuantityName[];
  /** With working arrays of its own, one a set of laws. */
  create(): (point: OperatingPoint) => void;
}
