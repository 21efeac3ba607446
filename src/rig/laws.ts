import { GRAVITY } from '../kernel/constants.ts';
import { equilibriumGap } from '../kernel/equilibrium.ts';
import { averageForce, buzzCurrent, doubleFrequencyForce, liftoffCurrent } from '../kernel/lift.ts';
import type { PlateLayer } from '../kernel/plate-reflection.ts';
import { resistivityAt } from '../kernel/resistivity.ts';
import { skinDepth } from '../kernel/skin-depth.ts';
import { FLOATS, LAYER_SLOTS, LAYER_THICKNESS, MAX_LAYERS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES } from '../model/quantities.ts';
import { REASON, STATUS } from '../model/status.ts';
import { CHECKED, createGeometry } from './geometry.ts';
import { WidePlate } from './wide-plate.ts';

/**
 * One design -> every quantity: the order in which the laws are asked. Reuses its working arrays from design to
 * design; a design's numbers never depend on what was asked before.
 */
export interface Laws {
  /** One value per quantity of the last design asked, SI; NaN where not applicable. */
  readonly results: Float64Array;
  /** Codes of STATUSES and REASONS for the last design asked. */
  status: number;
  reason: number;
  /** Asks every law about the design whose inputs these are. */
  ask(slots: Float64Array): void;
}

/** Gaps up to this many outer radii are resolved from the start; a rig that floats higher is asked again. */
const USUAL_REACH = 2.5;

export function createLaws(plateLayers: number): Laws {
  const results = new Float64Array(QUANTITIES.length);
  const geometry = createGeometry(plateLayers);
  const plate = new WidePlate();
  const { coupling } = plate;
  const layers: PlateLayer[] = Array.from({ length: MAX_LAYERS }, () => ({
    resistivity: 0,
    relativePermeability: 1,
    thickness: 0,
  }));
  const section = { innerRadius: 0, outerRadius: 0, height: 0, turns: 0 };

  const laws: Laws = { results, status: STATUS.failed, reason: REASON.none, ask };
  return laws;

  function give(index: number, value: number): void {
    results[index] = value;
  }

  function settle(status: number, reason: number): void {
    laws.status = status;
    laws.reason = reason;
  }

  function ask(slots: Float64Array): void {
    results.fill(Number.NaN);
    const ruledOut = geometry.fill(slots);
    if (ruledOut !== REASON.none) {
      settle(STATUS.impossible, ruledOut);
      return;
    }
    const { winding } = geometry;
    section.innerRadius = slots[SLOT.innerRadius]!;
    section.outerRadius = winding.outerRadius;
    section.height = winding.height;
    section.turns = slots[SLOT.turns]!;
    give(Q.wire_length, winding.length);
    give(Q.coil_mass, winding.mass);
    give(Q.coil_outer_radius, winding.outerRadius);
    give(Q.winding_height, winding.height);
    give(Q.space_factor, winding.spaceFactor);

    const omega = 2 * Math.PI * slots[SLOT.frequency]!;
    askPlate(slots, omega);
    const resistance = askResistance(slots);

    const standoff = slots[SLOT.standoff]!;
    const current = slots[SLOT.driveCurrent]!;
    const floats = slots[SLOT.floats] === FLOATS.coil;
    const weight = winding.mass * GRAVITY;

    plate.prepare(section, layers, plateLayers, omega, standoff, usualReach(standoff));
    coupling.evaluate(standoff);
    const free = plate.freeInductance;
    const restSlope = coupling.slopeRe;
    const restInductance = free + coupling.inductanceRe;
    give(Q.inductance_free, free);
    give(Q.inductance_rest, restInductance);
    give(Q.lift_force, averageForce(current, restSlope));
    const liftoff = liftoffCurrent(weight, restSlope);
    if (floats) {
      const restResistance = resistance - omega * coupling.inductanceIm;
      give(Q.buzz_current, buzzCurrent(weight, restSlope, coupling.slopeIm));
      give(Q.liftoff_current, liftoff);
      give(Q.liftoff_voltage, liftoff * Math.hypot(restResistance, omega * restInductance));
    }

    let gap = standoff;
    if (!floats) settle(STATUS.clamped, REASON.none);
    else if (Number.isNaN(liftoff)) settle(STATUS.rests, REASON.attracted);
    else if (!(current > liftoff)) settle(STATUS.rests, REASON.weak);
    else {
      settle(STATUS.lifts, REASON.none);
      gap = findGap((2 * weight) / (current * current), omega, standoff);
      if (Number.isNaN(gap)) {
        settle(STATUS.failed, REASON.unsolved);
        return;
      }
      coupling.evaluate(gap);
    }
    askOperatingPoint(current, resistance, omega, free);
    give(Q.gap, gap);
    give(Q.height, gap - standoff);
    give(Q.double_frequency_force, doubleFrequencyForce(current, coupling.slopeRe, coupling.slopeIm));
    if (laws.status === STATUS.lifts) askMotion(current, omega, winding.mass);
    give(Q.current_density, current / winding.conductorArea);

    for (const value of results) {
      if (value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY) {
        results.fill(Number.NaN);
        settle(STATUS.failed, REASON.notFinite);
        return;
      }
    }
  }

  function askPlate(slots: Float64Array, omega: number): void {
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
      const depth = skinDepth(layer.resistivity, layer.relativePermeability, omega);
      if (j === 0) give(Q.skin_depth, depth);
      depths += layer.thickness / depth;
    }
    // a half-space has no thickness to count
    if (depths !== Number.POSITIVE_INFINITY) give(Q.thickness_in_skin_depths, depths);
  }

  /** Resistance of the winding at coil.at_temperature. */
  function askResistance(slots: Float64Array): number {
    const rho20 = slots[SLOT.coilMetal + METAL_SLOTS.resistivity]!;
    const coefficient = slots[SLOT.coilMetal + METAL_SLOTS.temperatureCoefficient]!;
    const perResistivity = geometry.winding.length / geometry.winding.conductorArea;
    const resistance = perResistivity * resistivityAt(rho20, coefficient, slots[SLOT.coilTemperature]!);
    give(Q.resistance_cold, perResistivity * resistivityAt(rho20, coefficient, slots[SLOT.surroundings]!));
    give(Q.resistance, resistance);
    return resistance;
  }

  function usualReach(standoff: number): number {
    return Math.max(1.5 * standoff, USUAL_REACH * section.outerRadius);
  }

  /** Equilibrium gap; the nodes are laid anew, finer at small k, for the few rigs that float very high. */
  function findGap(target: number, omega: number, standoff: number): number {
    const limit = Math.max(standoff, CHECKED.gap.maximum);
    const usual = equilibriumGap(coupling, target, standoff, Math.min(usualReach(standoff), limit));
    if (!Number.isNaN(usual)) return usual;
    const farthest = 1.5 * limit;
    plate.prepare(section, layers, plateLayers, omega, standoff, farthest);
    return equilibriumGap(coupling, target, standoff, limit);
  }

  /** Circuit and losses at the gap that `coupling` was last asked about. */
  function askOperatingPoint(current: number, resistance: number, omega: number, free: number): void {
    const inductance = free + coupling.inductanceRe;
    const plateResistance = -omega * coupling.inductanceIm;
    const impedance = Math.hypot(resistance + plateResistance, omega * inductance);
    const voltage = current * impedance;
    const square = current * current;
    const power = square * (resistance + plateResistance);
    give(Q.inductance, inductance);
    give(Q.plate_resistance, plateResistance);
    give(Q.current, current);
    give(Q.voltage, voltage);
    give(Q.power, power);
    give(Q.apparent_power, voltage * current);
    give(Q.power_factor, (resistance + plateResistance) / impedance);
    give(Q.coil_loss, square * resistance);
    give(Q.plate_loss, square * plateResistance);
  }

  /** Small vertical motion about the equilibrium, at constant current. */
  function askMotion(current: number, omega: number, mass: number): void {
    const stiffness = -averageForce(current, coupling.curvatureRe);
    const twice = 2 * omega;
    give(Q.stiffness, stiffness);
    if (stiffness > 0) give(Q.bounce_frequency, Math.sqrt(stiffness / mass) / (2 * Math.PI));
    const drive = doubleFrequencyForce(current, coupling.slopeRe, coupling.slopeIm);
    give(Q.vibration, drive / Math.abs(mass * twice * twice - stiffness));
  }
}
