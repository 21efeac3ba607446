import { GRAVITY } from '../kernel/constants.ts';
import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { averageForce, chatterCurrent, doubleFrequencyForce, liftoffCurrent } from '../kernel/lift.ts';
import { resistivityAt } from '../kernel/resistivity.ts';
import { skinDepth } from '../kernel/skin-depth.ts';
import { FLOATS, LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES } from '../model/quantities.ts';
import { REASON, STATUS } from '../model/status.ts';
import { UNITS } from '../model/units.ts';
import { askCoilHeat } from './compute-coil-heat.ts';
import { computeExposure } from './compute-exposure.ts';
import { askPlateHeat } from './compute-plate-heat.ts';
import { computeReleases } from './compute-releases.ts';
import { askSafety } from './compute-safety.ts';
import { askSupply } from './compute-supply.ts';
import { DiscPlates } from './disc-plates.ts';
import { CHECKED, createGeometry, MAGNETIC } from './geometry.ts';
import { HELD, Operation } from './operate.ts';
import type { OperatingPoint } from './requested-law.ts';
import { createRequestedLaws } from './requested-laws.ts';
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
  /** The coil over its plate, for the design last asked; null where it was ruled out. */
  readonly coupling: GapCoupling | null;
  /** The design last asked at its operating point, for laws on request; null where it has none. */
  readonly operatingPoint: OperatingPoint | null;
  /** Loss per area of a wide plate under the design last asked, W/m2 (see wide-plate-heat). */
  wideLossDensity(gap: number, current: number, radii: Float64Array, out: Float64Array): void;
  /** Asks every law about the design whose inputs these are. */
  ask(slots: Float64Array): void;
}

/** Gaps up to this many outer radii are resolved from the start; a rig that floats higher is asked again. */
const USUAL_REACH = 2.5;

/** Codes of `plate_model`. */
const PLATE_MODEL = Object.freeze({ wide: 0, disc: 1 });

/**
 * @param windingCount how many windings the study lists; 0 where the coil itself is the one winding
 * @param requested quantities on request that are wanted, too
 */
export function createLaws(plateLayers: number, windingCount = 0, requested: readonly number[] = []): Laws {
  const geometry = createGeometry(plateLayers, windingCount);
  const { coil } = geometry;
  const rig = createState(coil, plateLayers);
  const { results, layers } = rig;
  const wide = new WidePlate();
  const discs = new DiscPlates();
  const resistance = new WindingResistance();
  const operation = new Operation(wide.coupling);
  const requestedLaws = createRequestedLaws(requested);
  let coupling: GapCoupling | null = null;

  return {
    results,
    get status() {
      return rig.status;
    },
    get reason() {
      return rig.reason;
    },
    get coupling() {
      return coupling;
    },
    wideLossDensity(gap, current, radii, out) {
      wide.lossDensity(coil, layers, plateLayers, rig.omega, gap, current, radii, out);
    },
    get operatingPoint() {
      const answered = rig.status !== STATUS.impossible && rig.status !== STATUS.failed;
      return coupling !== null && answered ? operatingPoint(coupling) : null;
    },
    ask,
  };

  function ask(slots: Float64Array): void {
    results.fill(Number.NaN);
    rig.slots = slots;
    coupling = null;
    rig.reason = geometry.fill(slots);
    if (rig.reason !== REASON.none) {
      rig.status = STATUS.impossible;
      return;
    }
    askWinding(slots);
    askPlate(slots);
    coupling = overPlate(slots);
    if (coupling === null) {
      rig.status = STATUS.failed;
      rig.reason = REASON.edgeUnresolved;
      return;
    }
    const liftoff = askAtRest(slots, coupling);
    if (!Number.isFinite(rig.restResistance + rig.restInductance + rig.restSlopeRe)) {
      refuse(rig);
      return;
    }
    if (!askDrive(slots, coupling, liftoff)) return;
    askOperatingPoint(coupling);
    askSupply(rig);
    const plateTemperature = askPlateHeat(rig, geometry.plateMass);
    askCoilHeat(rig, resistance, plateTemperature);
    askSafety(rig, wide);
    computeExposure(rig);
    computeReleases(rig);
    if (requestedLaws.length > 0) {
      const point = operatingPoint(coupling);
      for (const law of requestedLaws) law(point);
    }
    refuseInfinite(rig);
  }

  function operatingPoint(over: GapCoupling): OperatingPoint {
    over.evaluate(rig.gap);
    return {
      rig,
      over,
      voltageHeld: operation.held === HELD.voltage,
      respond: () => (geometry.edge ? discs.respond(rig.gap) : wide.respond(layers, plateLayers, rig.gap)),
      modes: () => {
        if (layers.slice(0, plateLayers).some((layer) => layer.relativePermeability > MAGNETIC)) return null;
        return geometry.edge
          ? discs.modes()
          : discs.wideModes(coil, layers, plateLayers, rig.omega, rig.slots[SLOT.standoff]!);
      },
    };
  }

  function askWinding(slots: Float64Array): void {
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
    resistance.prepare(rig);
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

  /**
   * The coil over its plate. The wide plate is prepared in either case: the free inductance and the field inside the
   * winding come from it.
   */
  function overPlate(slots: Float64Array): GapCoupling | null {
    const standoff = slots[SLOT.standoff]!;
    wide.prepare(coil, layers, plateLayers, rig.omega, standoff, usualReach(standoff));
    rig.freeInductance = wide.freeInductance;
    results[Q.plate_model] = geometry.edge ? PLATE_MODEL.disc : PLATE_MODEL.wide;
    if (!geometry.edge) return wide.coupling;
    const hole = slots[SLOT.plateInnerRadius]!;
    const inner = Number.isNaN(hole) ? 0 : hole;
    return discs.prepare(coil, layers, plateLayers, slots[SLOT.plateRadius]!, inner, rig.omega, standoff);
  }

  /** The rig at its standoff. Returns the lift-off current, NaN where the plate attracts. */
  function askAtRest(slots: Float64Array, over: GapCoupling): number {
    const standoff = slots[SLOT.standoff]!;
    over.evaluate(standoff);
    rig.resistance = resistance.at(rig, wide, standoff);
    rig.restResistance = rig.resistance - rig.omega * over.inductanceIm;
    rig.restInductance = rig.freeInductance + over.inductanceRe;
    rig.restSlopeRe = over.slopeRe;
    const liftoff = liftoffCurrent(rig.weight, over.slopeRe);
    results[Q.inductance_free] = rig.freeInductance;
    results[Q.inductance_rest] = rig.restInductance;
    if (rig.floats) {
      results[Q.chatter_current] = chatterCurrent(rig.weight, over.slopeRe, over.slopeIm);
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
  function askDrive(slots: Float64Array, over: GapCoupling, liftoff: number): boolean {
    const standoff = slots[SLOT.standoff]!;
    if (!findGap(standoff, over, liftoff)) return false;
    if (rig.status === STATUS.lifts) {
      rig.resistance = resistance.at(rig, wide, rig.gap);
      if (operation.held === HELD.voltage && !findGap(standoff, over, liftoff)) return false;
    }
    results[Q.resistance] = rig.resistance;
    over.evaluate(rig.gap);
    return true;
  }

  /** The nodes of a wide plate are laid anew, finer at small k, for the few rigs that float very high. */
  function findGap(standoff: number, over: GapCoupling, liftoff: number): boolean {
    const farthest = Math.max(standoff, CHECKED.gap.maximum);
    const reach = geometry.edge ? farthest : usualReach(standoff);
    const monotone = liftFallsWithGap();
    if (operation.solve(rig, over, rig.resistance, liftoff, reach, monotone)) return true;
    if (geometry.edge) return false;
    wide.prepare(coil, layers, plateLayers, rig.omega, standoff, 1.5 * farthest);
    return operation.solve(rig, over, rig.resistance, liftoff, 1.5 * farthest, monotone);
  }

  /** Over a non-magnetic plate that covers the coil; under a smaller disc, or over iron, lift may first rise. */
  function liftFallsWithGap(): boolean {
    for (let j = 0; j < plateLayers; j++) if (layers[j]!.relativePermeability > MAGNETIC) return false;
    return !geometry.edge || rig.slots[SLOT.plateRadius]! >= coil.outerRadius;
  }

  function usualReach(standoff: number): number {
    return Math.max(1.5 * standoff, USUAL_REACH * coil.outerRadius);
  }

  /** Circuit, losses and motion at the operating gap. */
  function askOperatingPoint(over: GapCoupling): void {
    const { current, omega, slots } = rig;
    const inductance = rig.freeInductance + over.inductanceRe;
    rig.plateResistance = -omega * over.inductanceIm;
    rig.reactance = omega * inductance;
    const total = rig.resistance + rig.plateResistance;
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
    results[Q.coil_loss] = square * rig.resistance;
    results[Q.plate_loss] = square * rig.plateResistance;
    results[Q.current_density] = current / coil.conductorArea;
    results[Q.gap] = rig.gap;
    results[Q.height] = rig.gap - slots[SLOT.standoff]!;
    results[Q.lift_force] = averageForce(current, rig.restSlopeRe);
    results[Q.double_frequency_force] = doubleFrequencyForce(current, over.slopeRe, over.slopeIm);
    results[Q.plate_flux_density] =
      current * wide.peakMagneticFlux(coil, layers, plateLayers, omega, rig.gap);
    if (rig.status === STATUS.lifts) askMotion(over);
  }

  /** Small vertical motion about the equilibrium, with what the drive holds held. */
  function askMotion(over: GapCoupling): void {
    const { current, omega, mass } = rig;
    const force = averageForce(current, over.slopeRe);
    const stiffness =
      operation.held === HELD.current
        ? -averageForce(current, over.curvatureRe)
        : 2 * force * operation.voltageSlope;
    const twice = 2 * omega;
    results[Q.stiffness] = stiffness;
    if (stiffness > 0) results[Q.natural_frequency] = Math.sqrt(stiffness / mass) / (2 * Math.PI);
    results[Q.vibration] = results[Q.double_frequency_force]! / Math.abs(mass * twice * twice - stiffness);
  }
}

/** Times may be infinite: a limit never reached. Anything else that is, is no answer. */
const FINITE = QUANTITIES.filter(({ unit }) => unit !== UNITS.s).map(({ index }) => index);

function refuseInfinite(rig: RigState): void {
  for (const index of FINITE) {
    if (Math.abs(rig.results[index]!) === Number.POSITIVE_INFINITY) {
      refuse(rig);
      return;
    }
  }
}

function refuse(rig: RigState): void {
  rig.results.fill(Number.NaN);
  rig.status = STATUS.failed;
  rig.reason = REASON.notFinite;
}
