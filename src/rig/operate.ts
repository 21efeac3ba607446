import { equilibriumGap } from '../kernel/equilibrium.ts';
import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { type Circuit, OUTCOME, RisingDrive } from '../kernel/rising-drive.ts';
import { FUSE_SIDES, SLOT } from '../model/inputs.ts';
import { REASON, STATUS } from '../model/status.ts';
import type { RigState } from './state.ts';

/** The drive's own constraint: what stays as it is when the coil moves a little. */
const HELD = Object.freeze({ current: 0, voltage: 1 });

/**
 * From the drive to the operating point: status, current and gap, with the winding's resistance taken as given.
 */
export class Operation {
  held: number = HELD.current;
  private coupling: GapCoupling;
  private highest = 0;
  private readonly drive: RisingDrive;
  private readonly circuit: Circuit = { resistance: 0, omega: 0, freeInductance: 0, capacitance: Number.NaN };
  private readonly limits = { voltage: 0, current: 0, apparent: 0 };

  constructor(coupling: GapCoupling) {
    this.coupling = coupling;
    this.drive = new RisingDrive(coupling);
  }

  get voltageHeld(): boolean {
    return this.held === HELD.voltage;
  }

  /** Relative rise of the supply voltage with the gap, 1/m; for a drive that holds the voltage. */
  get voltageSlope(): number {
    return this.drive.voltageSlope;
  }

  /**
   * Fills status, reason, current and gap of the rig.
   * @param liftoff lift-off current, NaN where the plate attracts
   * @param coupling the coil over its plate
   * @param reach gaps up to this are resolved
   * @param highest gaps up to this have been checked: no coil is followed past it
   * @param monotone lift falls as the gap grows, throughout
   * @returns false when the gap lies beyond `reach`
   */
  solve(
    rig: RigState,
    coupling: GapCoupling,
    liftoff: number,
    reach: number,
    highest: number,
    monotone: boolean,
  ): boolean {
    const { slots } = rig;
    this.coupling = coupling;
    this.highest = highest;
    const standoff = slots[SLOT.standoff]!;
    const current = slots[SLOT.driveCurrent]!;
    rig.gap = standoff;
    rig.reason = REASON.none;
    if (!Number.isNaN(current)) {
      this.held = HELD.current;
      rig.current = current;
      return this.atCurrent(rig, liftoff, reach);
    }
    this.held = HELD.voltage;
    this.setLimits(slots);
    this.circuit.resistance = rig.resistance + slots[SLOT.seriesResistance]!;
    this.circuit.omega = rig.omega;
    this.circuit.freeInductance = rig.freeInductance;
    this.circuit.capacitance = slots[SLOT.seriesCapacitance]!;
    return this.raised(rig, liftoff, reach, monotone && Number.isNaN(this.circuit.capacitance));
  }

  private atCurrent(rig: RigState, liftoff: number, reach: number): boolean {
    if (this.settled(rig, liftoff)) return true;
    const target = (2 * rig.weight) / (rig.current * rig.current);
    const farthest = Math.min(reach, this.highest);
    const gap = equilibriumGap(this.coupling, target, rig.gap, farthest);
    if (!Number.isNaN(gap)) return this.floating(rig, gap);
    this.coupling.evaluateLift(farthest);
    return this.lost(rig, this.coupling.slopeRe > target ? REASON.tooHigh : REASON.unsolved);
  }

  private raised(rig: RigState, liftoff: number, reach: number, plain: boolean): boolean {
    const { drive } = this;
    drive.rest(this.coupling, this.circuit, this.limits, rig.weight, rig.gap);
    rig.current = drive.current;
    if (this.settled(rig, liftoff)) return true;
    const outcome = drive.raise(Math.min(reach, this.highest), plain);
    if (outcome === OUTCOME.beyond) return this.lost(rig, REASON.tooHigh);
    if (outcome === OUTCOME.unsettled) return this.lost(rig, REASON.notConverged);
    rig.current = drive.current;
    if (outcome === OUTCOME.jumps) {
      rig.status = STATUS.rests;
      rig.reason = REASON.jumps;
      return true;
    }
    return this.floating(rig, drive.gap);
  }

  /** Clamped, attracted or too weak: the gap is the standoff. */
  private settled(rig: RigState, liftoff: number): boolean {
    if (!rig.floats) rig.status = STATUS.clamped;
    else {
      rig.status = STATUS.rests;
      if (Number.isNaN(liftoff)) rig.reason = REASON.attracted;
      else if (rig.current > liftoff) return false;
      else rig.reason = REASON.weak;
    }
    return true;
  }

  private floating(rig: RigState, gap: number): boolean {
    if (gap > this.highest) return this.lost(rig, REASON.tooHigh);
    rig.gap = gap;
    rig.status = STATUS.lifts;
    rig.reason = REASON.none;
    return true;
  }

  private lost(rig: RigState, reason: number): boolean {
    rig.status = STATUS.failed;
    rig.reason = reason;
    return false;
  }

  private setLimits(slots: Float64Array): void {
    const { limits } = this;
    const voltage = slots[SLOT.driveVoltage]!;
    limits.voltage = Number.POSITIVE_INFINITY;
    limits.current = Number.POSITIVE_INFINITY;
    limits.apparent = Number.POSITIVE_INFINITY;
    if (!Number.isNaN(voltage)) {
      limits.voltage = voltage;
      return;
    }
    const rating = orNone(slots[SLOT.fuseRating]!);
    limits.voltage = orNone(slots[SLOT.maxVoltage]!);
    limits.current = orNone(slots[SLOT.maxCurrent]!);
    if (slots[SLOT.fuseSide] === FUSE_SIDES.line) limits.apparent = rating * slots[SLOT.lineVoltage]!;
    else limits.current = Math.min(limits.current, rating);
  }
}

function orNone(limit: number): number {
  return Number.isNaN(limit) ? Number.POSITIVE_INFINITY : limit;
}
