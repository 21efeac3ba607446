import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { chatterCurrent, liftoffCurrent } from '../kernel/lift.ts';
import { modulus } from '../math/modulus.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { CoilOverPlate } from './coil-over-plate.ts';
import { CHECKED, highestOver } from './geometry.ts';
import { Operation } from './operate.ts';
import type { RigState } from './state.ts';
import type { WindingResistance } from './winding-resistance.ts';

/** From the rig at rest on its standoff to current and gap at its drive. */
export class DriveSolver {
  readonly operation: Operation;
  private readonly rig: RigState;
  private readonly overPlate: CoilOverPlate;
  private readonly resistance: WindingResistance;

  constructor(rig: RigState, overPlate: CoilOverPlate, resistance: WindingResistance) {
    this.rig = rig;
    this.overPlate = overPlate;
    this.resistance = resistance;
    this.operation = new Operation(overPlate.wide.coupling);
  }

  /** The rig at its standoff. Returns the lift-off current, NaN where the plate attracts. */
  computeAtRest(over: GapCoupling): number {
    const { rig, overPlate, resistance } = this;
    const { results } = rig;
    const standoff = rig.slots[SLOT.standoff]!;
    over.evaluate(standoff);
    rig.resistance = resistance.at(rig, overPlate.inside, standoff);
    rig.restWindingResistance = rig.resistance;
    rig.restResistance = rig.resistance - rig.omega * over.inductanceIm;
    rig.restInductance = rig.freeInductance + over.inductanceRe;
    rig.restSlopeRe = over.slopeRe;
    const liftoff = liftoffCurrent(rig.weight, over.slopeRe);
    results[Q.inductance_free] = rig.freeInductance;
    results[Q.inductance_rest] = rig.restInductance;
    if (rig.floats) {
      results[Q.chatter_current] = chatterCurrent(rig.weight, over.slopeRe, over.slopeIm);
      results[Q.liftoff_current] = liftoff;
      results[Q.liftoff_voltage] = liftoff * modulus(rig.restResistance, rig.omega * rig.restInductance);
    }
    return liftoff;
  }

  /**
   * Current and gap. The winding's ac resistance depends a little on the gap: at a given voltage the gap is found
   * with the resistance at the standoff, then once more with the resistance there (what is left is below 1e-6).
   * False when there is no operating point.
   */
  computeDrive(over: GapCoupling, liftoff: number): boolean {
    const { rig } = this;
    if (!this.findGap(over, liftoff)) return false;
    if (rig.status === STATUS.lifts) {
      rig.resistance = this.resistance.at(rig, this.overPlate.inside, rig.gap);
      if (this.operation.voltageHeld && !this.findGap(over, liftoff)) return false;
    }
    rig.results[Q.resistance] = rig.resistance;
    over.evaluate(rig.gap);
    return true;
  }

  /** A rig over a wide plate that floats beyond the usual reach is solved again with finer nodes. */
  private findGap(over: GapCoupling, liftoff: number): boolean {
    const { rig, overPlate, operation } = this;
    const { isDisc, liftFallsWithGap, interpolated } = overPlate;
    const checked = isDisc ? highestOver(rig.coil.outerRadius) : CHECKED.gap.maximum;
    const highest = Math.max(rig.slots[SLOT.standoff]!, checked);
    const reach = interpolated?.coupling.farthest ?? (isDisc ? highest : overPlate.usualReach);
    if (operation.solve(rig, over, liftoff, reach, highest, liftFallsWithGap)) return true;
    if (isDisc || interpolated !== null) return false;
    overPlate.prepareWide(1.5 * highest);
    return operation.solve(rig, over, liftoff, 1.5 * highest, highest, liftFallsWithGap);
  }
}
