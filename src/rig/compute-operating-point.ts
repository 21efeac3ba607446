import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { averageForce, doubleFrequencyForce } from '../kernel/lift.ts';
import { modulus } from '../math/modulus.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { RigState } from './state.ts';

/** What the drive holds at the operating point. */
export interface HeldPoint {
  /** The supply's voltage is held; otherwise the coil's current. */
  readonly voltageHeld: boolean;
  /** How the logarithm of the supply's voltage grows with the gap at which it holds the coil, 1/m. */
  readonly voltageSlope: number;
}

/** Circuit, losses and motion at the operating gap. */
export function computeOperatingPoint(rig: RigState, over: GapCoupling, point: HeldPoint): void {
  const { results, coil, current, omega, slots } = rig;
  const inductance = rig.freeInductance + over.inductanceRe;
  rig.plateResistance = -omega * over.inductanceIm;
  rig.reactance = omega * inductance;
  const total = rig.resistance + rig.plateResistance;
  const impedance = modulus(total, rig.reactance);
  const voltage = current * impedance;
  const square = current * current;
  results[Q.inductance] = inductance;
  results[Q.plate_resistance] = rig.plateResistance;
  results[Q.current] = current;
  results[Q.voltage] = voltage;
  results[Q.power] = square * total;
  results[Q.apparent_power] = voltage * current;
  results[Q.power_factor] = total / impedance;
  results[Q.coil_loss] = square * rig.resistance;
  results[Q.plate_loss] = square * rig.plateResistance;
  results[Q.current_density] = current / coil.conductorArea;
  results[Q.gap] = rig.gap;
  results[Q.height] = rig.gap - slots[SLOT.standoff]!;
  results[Q.lift_force] = averageForce(current, rig.restSlopeRe);
  results[Q.double_frequency_force] = doubleFrequencyForce(current, over.slopeRe, over.slopeIm);
  if (rig.status === STATUS.lifts) computeMotion(rig, over, point);
}

/** Small vertical motion about the equilibrium, with what the drive holds held. */
function computeMotion(rig: RigState, over: GapCoupling, { voltageHeld, voltageSlope }: HeldPoint): void {
  const { results, current, omega, mass } = rig;
  const force = averageForce(current, over.slopeRe);
  const stiffness = voltageHeld ? 2 * force * voltageSlope : -averageForce(current, over.curvatureRe);
  const twice = 2 * omega;
  results[Q.stiffness] = stiffness;
  if (stiffness > 0) results[Q.natural_frequency] = Math.sqrt(stiffness / mass) / (2 * Math.PI);
  results[Q.vibration] = results[Q.double_frequency_force]! / Math.abs(mass * twice * twice - stiffness);
}
