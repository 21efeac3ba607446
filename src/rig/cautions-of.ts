import { occupationalLevel, publicLevel } from '../kernel/exposure.ts';
import { type Caution, type CautionValues, cautions } from '../model/cautions.ts';
import { FLOATS, ISOLATED, LAYER_SLOTS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigTemplate } from '../model/study.ts';
import { createCoil } from './coil.ts';
import { MAGNETIC } from './geometry.ts';

/**
 * A rig that says nothing of its supply but one of these frequencies is taken as fed from the mains by a variable
 * transformer; at any other, without a line voltage, as fed by a generator or an amplifier.
 */
const MAINS = [50, 60];

/** A drive that goes up to a limit reaches it to within rounding. */
const ROUNDING = 1e-6;

/**
 * The cautions of one design.
 * @param slots its inputs, SI, with their defaults (`createDesignReader`)
 * @param results its quantities, SI, NaN where not applicable; none for a design that could not be evaluated
 */
export function cautionsOf(
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  results: Float64Array,
): Caution[] {
  if (Number.isNaN(results[Q.current]!)) return [];
  const frequency = slots[SLOT.frequency]!;
  const mainsFed = !Number.isNaN(slots[SLOT.lineVoltage]!) || MAINS.includes(frequency);
  const values: CautionValues = {
    plateFluxDensity: results[Q.plate_flux_density]!,
    standoffInsulates: flag(!Number.isNaN(slots[SLOT.standoffBreakdown]!)),
    insulationMargin: results[Q.insulation_margin]!,
    visitorField: largest(results[Q.field_visitor]!, results[Q.field_on_axis]!),
    publicLevel: publicLevel(frequency),
    occupationalLevel: occupationalLevel(frequency),
    coilTemperature: results[Q.coil_temperature]!,
    thermalClass: slots[SLOT.thermalClass]!,
    // heat was asked about and had no steady answer
    coilRunsAway: flag(Number.isNaN(results[Q.coil_temperature]!)),
    plateTemperature: results[Q.plate_temperature]!,
    highestVoltage: largest(
      results[Q.voltage_to_earth]!,
      results[Q.voltage]!,
      results[Q.supply_voltage]!,
      results[Q.capacitor_voltage]!,
    ),
    mainsFed: flag(mainsFed && slots[SLOT.isolated] !== ISOLATED.true),
    floats: flag(slots[SLOT.floats] !== FLOATS.nothing),
    switchOnLiftOverWeight: results[Q.switch_on_lift_over_weight]!,
    fuseMargin: results[Q.fuse_margin]! + ROUNDING,
    packing: packingOf(windings, slots) - ROUNDING,
    plateIsMagnetic: flag(isMagnetic(plateLayers, slots)),
    plateOverCoilRadius: slots[SLOT.plateRadius]! / results[Q.coil_outer_radius]!,
    panLiftOverWeight: results[Q.pan_lift_over_weight]!,
    panPeakLiftOverWeight: results[Q.pan_peak_lift_over_weight]!,
  };
  return cautions(values);
}

function flag(set: boolean): number {
  return set ? 1 : 0;
}

/** Of those that are known; NaN when none is. */
function largest(...values: number[]): number {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length === 0 ? Number.NaN : Math.max(...known);
}

/** A winding in layers fills pi/4 of its section at most, to within rounding; a section fixed by hand may hold more. */
function packingOf(windings: number, slots: Float64Array): number {
  const coil = createCoil(windings);
  coil.fill(slots);
  return coil.packing;
}

function isMagnetic(plateLayers: number, slots: Float64Array): boolean {
  for (let layer = 0; layer < plateLayers; layer++) {
    const at = SLOT.plateLayers + layer * LAYER_SLOTS + METAL_SLOTS.relativePermeability;
    if (slots[at]! > MAGNETIC) return true;
  }
  return false;
}
