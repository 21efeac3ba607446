import { GRAVITY } from '../kernel/constants.ts';
import { averageForce, buzzCurrent, doubleFrequencyForce, liftoffCurrent } from '../kernel/lift.ts';
import { resistivityAt } from '../kernel/resistivity.ts';
import { skinDepth } from '../kernel/skin-depth.ts';
import { FLOATS, LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES } from '../model/quantities.ts';
import { REASON, STATUS } from '../model/status.ts';
import { UNITS } from '../model/units.ts';
import { askCoilHeat } from './ask-coil-heat.ts';
import { askPlateHeat } from './ask-plate-heat.ts';
import { askSafety } from './ask-safety.ts';
import { askSupply } from './ask-supply.ts';
import { CHECKED, createGeometry } from './geometry.ts';
import { HELD, Operation } from './operate.ts';
import { createState, type RigState } from './state.ts';
import { WidePlate } from './wide-plate.ts';
import { WindingResistance } from './winding-resistance.ts';

/**
 * One design -> every quantity: the order in which the laws are asked. Reuses its working arrays from design to
 * design; a design's numbers never depend on what was asked before.
 */
export interface Laws {
  /** One value per quantity of the last design asked, SI; NaN where not applicable. */
  readonly results: Float64Array;
  /** Codes of STATUSES and REASONS for the last design asked. */
  readonly status: number;
  readonly reason: number;
  /** Asks every law about the design whose inputs these are. */
  ask(slots: Float64Array): void;
}

/** Gaps up to this many outer radii are resolved from the start; a rig that floats higher is asked again. */
const USUAL_REACH = 2.5;

export function createLaws(plateLayers: number): Laws {
  const rig = createState(plateLayers);
  const { results, section, layers } = rig;
  const geometry = createGeometry(plateLayers);
  const plate = new WidePlate();
  const { coupling } = plate;
  const winding = new WindingResistance();
  const operation = new Operation(coupling);

  return {
    results,
    get status() {
      return rig.status;
    },
    get reason() {
      return rig.reason;
    },
    ask,
  };

  function ask(slots: Float64Array): void {
    results.fill(Number.NaN);
    rig.slots = slots;
    rig.reason = geometry.fill(slots);
    if (rig.reason !== REASON.none) {
      rig.status = STATUS.impossible;
      return;
    }
    askWinding(slots);
    askPlate(slots);
    const liftoff = askAtRest(slots);
    if (!askDrive(slots, liftoff)) return;
    askOperatingPoint();
    askSupply(rig);
    const plateTemperature = askPlateHeat(rig);
    askCoilHeat(rig, winding.dc, plateTemperature);
    askSafety(rig);
    refuseInfinite(rig);
  }

  function askWinding(slots: Float64Array): void {
    const { winding: wound } = geometry;
    rig.winding = wound;
    rig.omega = 2 * Math.PI * slots[SLOT.frequency]!;
    rig.floats = slots[SLOT.floats] === FLOATS.coil;
    rig.weight = wound.mass * GRAVITY;
    section.innerRadius = slots[SLOT.innerRadius]!;
    section.outerRadius = wound.outerRadius;
    section.height = wound.height;
    section.turns = slots[SLOT.turns]!;
    results[Q.wire_length] = wound.length;
    results[Q.coil_mass] = wound.mass;
    results[Q.coil_outer_radius] = wound.outerRadius;
    results[Q.winding_height] = wound.height;
    results[Q.space_factor] = wound.spaceFactor;
    winding.prepare(rig);
  }

  function askPlate(slots: Float64Array): void {
    let depths = 0;
    for (let j = 0; j < plateLayers; j++) {
      const at = SLOT.plateLayers + j * LAYER_SLOTS;
      const layer = layers[j]!;
      layer.resistivity = resistivityAt(
        slots[at + METAL_SLOTS.resistivity]!,
        slots[at + METAL_SLOTS.temperatureCoefficient]!,
        slots[SLOT.plateTemperature]!,
      );
      layer.relativePermeability = slots[at + METAL_SLOTS.relativePermeability]!;
      layer.thickness = slots[at + LAYER_THICKNESS]!;
      const depth = skinDepth(layer.resistivity, layer.relativePermeability, rig.omega);
      if (j === 0) results[Q.skin_depth] = depth;
      depths += layer.thickness / depth;
    }
    // a half-space has no thickness to count
    if (depths !== Number.POSITIVE_INFINITY) results[Q.thickness_in_skin_depths] = depths;
  }

  /** The rig at its standoff. Returns the lift-off current, NaN where the plate attracts. */
  function askAtRest(slots: Float64Array): number {
    const standoff = slots[SLOT.standoff]!;
    plate.prepare(section, layers, plateLayers, rig.omega, standoff, usualReach(standoff));
    coupling.evaluate(standoff);
    rig.freeInductance = plate.freeInductance;
    rig.resistance = winding.at(rig, plate, standoff);
    rig.restResistance = rig.resistance - rig.omega * coupling.inductanceIm;
    rig.restInductance = rig.freeInductance + coupling.inductanceRe;
    rig.restSlopeRe = coupling.slopeRe;
    const liftoff = liftoffCurrent(rig.weight, coupling.slopeRe);
    results[Q.inductance_free] = rig.freeInductance;
    results[Q.inductance_rest] = rig.restInductance;
    if (rig.floats) {
      results[Q.buzz_current] = buzzCurrent(rig.weight, coupling.slopeRe, coupling.slopeIm);
      results[Q.liftoff_current] = liftoff;
      results[Q.liftoff_voltage] = liftoff * Math.hypot(rig.restResistance, rig.omega * rig.restInductance);
    }
    return liftoff;
  }

  /**
   * Current and gap. The winding's ac resistance depends a little on the gap: at a given voltage the gap is found
   * with the resistance at the standoff, then once more with the resistance there (what is left is below 1e-6).
   * False when there is no operating point.
   */
  function askDrive(slots: Float64Array, liftoff: number): boolean {
    const standoff = slots[SLOT.standoff]!;
    if (!findGap(standoff, rig.resistance, liftoff)) return false;
    if (rig.status === STATUS.lifts) {
      rig.resistance = winding.at(rig, plate, rig.gap);
      if (operation.held === HELD.voltage && !findGap(standoff, rig.resistance, liftoff)) return false;
    }
    results[Q.resistance] = rig.resistance;
    coupling.evaluate(rig.gap);
    return true;
  }

  /** The nodes are laid anew, finer at small k, for the few rigs that float very high. */
  function findGap(standoff: number, resistance: number, liftoff: number): boolean {
    const usual = usualReach(standoff);
    if (operation.solve(rig, resistance, liftoff, usual)) return true;
    const farthest = 1.5 * Math.max(standoff, CHECKED.gap.maximum);
    plate.prepare(section, layers, plateLayers, rig.omega, standoff, farthest);
    return operation.solve(rig, resistance, liftoff, farthest);
  }

  function usualReach(standoff: number): number {
    return Math.max(1.5 * standoff, USUAL_REACH * section.outerRadius);
  }

  /** Circuit, losses and motion at the gap that `coupling` was last asked about. */
  function askOperatingPoint(): void {
    const { current, resistance, omega, slots } = rig;
    const inductance = rig.freeInductance + coupling.inductanceRe;
    rig.plateResistance = -omega * coupling.inductanceIm;
    rig.reactance = omega * inductance;
    const total = resistance + rig.plateResistance;
    const impedance = Math.hypot(total, rig.reactance);
    const voltage = current * impedance;
    const square = current * current;
    results[Q.inductance] = inductance;
    results[Q.plate_resistance] = rig.plateResistance;
    results[Q.current] = current;
    results[Q.voltage] = voltage;
    results[Q.power] = square * total;
    results[Q.apparent_power] = voltage * current;
    results[Q.power_factor] = total / impedance;
    results[Q.coil_loss] = square * resistance;
    results[Q.plate_loss] = square * rig.plateResistance;
    results[Q.current_density] = current / geometry.winding.conductorArea;
    results[Q.gap] = rig.gap;
    results[Q.height] = rig.gap - slots[SLOT.standoff]!;
    results[Q.lift_force] = averageForce(current, rig.restSlopeRe);
    results[Q.double_frequency_force] = doubleFrequencyForce(current, coupling.slopeRe, coupling.slopeIm);
    results[Q.plate_flux_density] =
      current * plate.peakMagneticFlux(section, layers, plateLayers, omega, rig.gap);
    if (rig.status === STATUS.lifts) askMotion();
  }

  /** Small vertical motion about the equilibrium, with what the drive holds held. */
  function askMotion(): void {
    const { current, omega, winding: wound } = rig;
    const force = averageForce(current, coupling.slopeRe);
    const stiffness =
      operation.held === HELD.current
        ? -averageForce(current, coupling.curvatureRe)
        : 2 * force * operation.voltageSlope;
    const twice = 2 * omega;
    results[Q.stiffness] = stiffness;
    if (stiffness > 0) results[Q.bounce_frequency] = Math.sqrt(stiffness / wound.mass) / (2 * Math.PI);
    results[Q.vibration] =
      results[Q.double_frequency_force]! / Math.abs(wound.mass * twice * twice - stiffness);
  }
}

/** Times may be infinite: a limit never reached. Anything else that is, is no answer. */
const FINITE = QUANTITIES.filter(({ unit }) => unit !== UNITS.s).map(({ index }) => index);

function refuseInfinite(rig: RigState): void {
  for (const index of FINITE) {
    if (Math.abs(rig.results[index]!) === Number.POSITIVE_INFINITY) {
      rig.results.fill(Number.NaN);
      rig.status = STATUS.failed;
      rig.reason = REASON.notFinite;
      return;
    }
  }
}
