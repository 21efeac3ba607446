import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { averageForce } from '../kernel/lift.ts';
import { SLOT } from '../model/inputs.ts';
import type { CoilOverPlate } from './coil-over-plate.ts';
import type { RigState } from './state.ts';
import type { WindingResistance } from './winding-resistance.ts';

/** Of coil and plate at the supply's frequency, between the coil's terminals, ohm. */
export interface Impedance {
  readonly resistance: number;
  readonly reactance: number;
}

/**
 * One design as a function of the gap: what carries, what must be carried, the circuit, and the gaps for which all that
 * holds. Small motion, motion in time and warming start from it; the lift curve and the supply are its force and its
 * impedance at the operating points (test). Good until its evaluator takes the next design. SI, rms.
 */
export interface RigModel {
  /** Whether anything floats, and its mass, kg, its weight, N, and the drag of its guides, N s/m. */
  readonly floats: boolean;
  readonly mass: number;
  readonly weight: number;
  readonly drag: number;
  readonly omega: number;
  /** Of the windings without a plate, H. */
  readonly freeInductance: number;
  /** Of the windings at the operating gap, and beside them in series, ohm. */
  readonly windingResistance: number;
  readonly seriesResistance: number;
  /** In series, F; NaN: none. */
  readonly seriesCapacitance: number;
  /** Valid gaps, m: from the standoff to as far as coil and plate are resolved. */
  readonly nearest: number;
  readonly farthest: number;
  /** Null outside the valid gaps. */
  impedance(gap: number): Impedance | null;
  /** Mean force that pushes coil and plate apart, N, at a current in A; NaN outside the valid gaps. */
  force(gap: number, current: number): number;
}

/** @param over the coil over its plate; stays evaluated at the operating gap */
export function createRigModel(
  rig: RigState,
  over: GapCoupling,
  overPlate: CoilOverPlate,
  resistance: WindingResistance,
): RigModel {
  const { slots, omega, freeInductance } = rig;
  const nearest = slots[SLOT.standoff]!;
  const farthest = overPlate.reach;
  const isValid = (gap: number) => gap >= nearest && gap <= farthest;
  return {
    floats: rig.floats,
    mass: rig.mass,
    weight: rig.weight,
    drag: slots[SLOT.guidesDrag]! || 0,
    omega,
    freeInductance,
    windingResistance: rig.resistance,
    seriesResistance: slots[SLOT.seriesResistance]! || 0,
    seriesCapacitance: slots[SLOT.seriesCapacitance]!,
    nearest,
    farthest,
    impedance(gap) {
      if (!isValid(gap)) return null;
      over.evaluate(gap);
      const winding = resistance.at(rig, overPlate.wide, gap);
      const impedance = {
        resistance: winding - omega * over.inductanceIm,
        reactance: omega * (freeInductance + over.inductanceRe),
      };
      // the laws find both where they left them
      over.evaluate(rig.gap);
      resistance.at(rig, overPlate.wide, rig.gap);
      return impedance;
    },
    force(gap, current) {
      if (!isValid(gap)) return Number.NaN;
      over.evaluate(gap);
      const force = averageForce(current, over.slopeRe);
      over.evaluate(rig.gap);
      return force;
    },
  };
}
