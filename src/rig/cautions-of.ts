import { implantLevel, occupationalLevel, publicLevel } from '../kernel/exposure.ts';
import { HOTTEST_PLATE } from '../kernel/plate-heat.ts';
import type { CautionValue, CautionValues } from '../model/cautions/caution-values.ts';
import { type Judgement, judge, judgeNothing } from '../model/cautions/judge.ts';
import {
  FLOATS,
  ISOLATED,
  LAYER_SLOTS,
  LAYER_THICKNESS,
  METAL_SLOTS,
  SLOT,
  WINDING_SLOTS,
} from '../model/inputs.ts';
import { meltsFromOf } from '../model/metals.ts';
import { Q } from '../model/quantities.ts';
import type { RigTemplate } from '../model/study.ts';
import { createCoil } from './coil.ts';
import { PLATE_MODEL } from './coil-over-plate.ts';
import { MAGNETIC } from './geometry.ts';
import { USUAL_SHIFT } from './sideways.ts';
import { whyNoSideways } from './sideways-plates.ts';

/**
 * A rig that states nothing of its supply but one of these frequencies is taken as fed from the mains by a variable
 * transformer; at any other, without a line voltage, it is not known.
 */
const MAINS = [50, 60];

/** A drive that goes up to a limit reaches it to within rounding. */
const ROUNDING = 1e-6;

/** Peak V from which a charged part counts as live (IEC 60335-1, 8.1.4, seen quoted). */
const LIVE = 42.4;

/** Of a row that does not hold it. */
const ON_REQUEST = 'motion is computed for cards and reports, and where a study names its quantities';

const NO_RADIUS = 'no `plate.radius` given';
const NO_THICKNESS = 'no finite `plate.thickness` given';

type Layout = Pick<RigTemplate, 'plateLayers' | 'windings'>;

/**
 * The judgement of every caution on one design.
 * @param slots its inputs, SI, with their defaults (`createDesignReader`)
 * @param results its quantities, SI, NaN where not applicable; none for a design that could not be evaluated
 */
export function cautionsOf(layout: Layout, slots: Float64Array, results: Float64Array): Judgement[] {
  if (Number.isNaN(results[Q.current]!)) return judgeNothing('the design has no answer');
  return judge({
    ...electricValues(slots, results),
    ...heatValues(layout, slots, results),
    ...motionValues(slots, results),
    ...fieldValues(slots, results),
    ...steelValues(layout.plateLayers, slots, results),
    strandCirculation: results[Q.strand_circulation]!,
    packing: packingOf(layout.windings, slots) - ROUNDING,
    plateOverCoilRadius: known(slots[SLOT.plateRadius]! / results[Q.coil_outer_radius]!, NO_RADIUS),
  });
}

function electricValues(slots: Float64Array, results: Float64Array) {
  const lineVoltage = slots[SLOT.lineVoltage]!;
  const noLineVoltage = 'no `line_voltage` given';
  const isolated = slots[SLOT.isolated] === ISOLATED.true;
  const isMains = !Number.isNaN(lineVoltage) || MAINS.includes(slots[SLOT.frequency]!);
  const across = results[Q.capacitor_voltage]!;
  const hasCapacitor = !Number.isNaN(across);
  const compensator = results[Q.pf_correction_capacitance]!;
  const outlet = results[Q.pf_correction_capacitor_voltage]!;
  const compensates = compensator > 0;
  const toEarth = results[Q.voltage_to_earth]!;
  const alive = largest(toEarth, results[Q.voltage]!, results[Q.supply_voltage]!, across);
  return {
    touchVoltage: known(alive, noLineVoltage, Number.isNaN(toEarth) ? alive : null),
    mainsFed: isolated ? 0 : isMains ? 1 : { missing: noLineVoltage, atLeast: Number.NaN },
    isolated: flag(isolated),
    loaded: flag(!Number.isNaN(slots[SLOT.loadWater]!)),
    insulationMargin: known(
      results[Q.insulation_margin]!,
      Number.isNaN(toEarth) ? noLineVoltage : 'no `standoff.breakdown` given',
    ),
    standoffInsulates: flag(!Number.isNaN(slots[SLOT.standoffBreakdown]!)),
    storedEnergy: results[Q.stored_energy]!,
    hasCapacitor: flag(hasCapacitor),
    voltageRise: results[Q.voltage_rise]!,
    resonanceRatio: results[Q.resonance_ratio]!,
    capacitorHolds: flag(Math.SQRT2 * across > LIVE),
    capacitorCharge: slots[SLOT.seriesCapacitance]! * Math.SQRT2 * across,
    capacitorEnergy: results[Q.capacitor_energy]!,
    capacitorVoltage: across,
    compensatorHolds: flag(compensates && Math.SQRT2 * outlet > LIVE),
    compensatorCharge: compensator * Math.SQRT2 * outlet,
    compensatorEnergy: compensator * outlet * outlet,
    compensatorVoltage: outlet,
    fuseMargin: known(results[Q.fuse_margin]! + ROUNDING, whyNoFuse(slots)),
    power: results[Q.power]!,
  } satisfies Partial<CautionValues>;
}

function whyNoFuse(slots: Float64Array): string {
  return Number.isNaN(slots[SLOT.fuseRating]!) ? 'no `fuse` given' : 'no `line_voltage` given';
}

function heatValues({ plateLayers, windings }: Layout, slots: Float64Array, results: Float64Array) {
  const coil = results[Q.coil_hot_spot]!;
  // heat was computed and had no steady answer
  const runsAway = Number.isNaN(coil);
  // a plate of unknown size takes all that the winding gives it: the real one may get warm, and the winding hotter
  const isBounded = !Number.isNaN(results[Q.plate_time_to_60degC]!);
  const coilAtLeast = runsAway ? Number.POSITIVE_INFINITY : coil;
  const coilTemperature: CautionValue =
    runsAway || isBounded ? coilAtLeast : { missing: whyNoPlate(slots), atLeast: coil };
  const plateTemperature = plateTemperatureOf(slots, results);
  const loaded = !Number.isNaN(slots[SLOT.loadWater]!);
  return {
    coilTemperature,
    coilRunsAway:
      runsAway || isBounded ? flag(runsAway) : { missing: whyNoPlate(slots), atLeast: Number.NaN },
    thermalClass: known(slots[SLOT.thermalClass]!, 'no `thermal_class` given'),
    coilMelts: known(coilMelts(windings, slots), 'no melting point known of the coil’s own metal'),
    plateTemperature,
    plateMelts: known(plateMelts(plateLayers, slots), 'no melting point known of the plate’s own metal'),
    unloaded: flag(!loaded),
    hottestPart: hotter(coilAtLeast, plateTemperature),
  } satisfies Partial<CautionValues>;
}

function whyNoPlate(slots: Float64Array): string {
  return Number.isNaN(slots[SLOT.plateRadius]!) ? NO_RADIUS : NO_THICKNESS;
}

/** Of the plate alone; not known beyond what is followed, and where the plate has no size. */
function plateTemperatureOf(slots: Float64Array, results: Float64Array): CautionValue {
  const temperature = results[Q.plate_temperature]!;
  if (!Number.isNaN(temperature)) return temperature;
  if (Number.isNaN(slots[SLOT.plateRadius]!)) return { missing: NO_RADIUS, atLeast: Number.NaN };
  if (Number.isNaN(results[Q.plate_time_to_60degC]!)) {
    return { missing: NO_THICKNESS, atLeast: Number.NaN };
  }
  return { missing: 'the plate gets hotter than is computed', atLeast: HOTTEST_PLATE };
}

function hotter(coil: number, plate: CautionValue): CautionValue {
  if (typeof plate === 'number') return Math.max(coil, plate);
  return { missing: plate.missing, atLeast: largest(coil, plate.atLeast) };
}

/** The lowest of the windings' metals; NaN where one is not known. */
function coilMelts(windings: number, slots: Float64Array): number {
  let lowest = metalMelts(slots, SLOT.coilMetal);
  for (let w = 0; w < windings; w++) {
    const at = SLOT.windings + w * WINDING_SLOTS;
    const own = Number.isNaN(slots[at]!) ? SLOT.coilMetal : at;
    const melts = metalMelts(slots, own);
    lowest = w === 0 ? melts : Math.min(lowest, melts);
  }
  return lowest;
}

function plateMelts(plateLayers: number, slots: Float64Array): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (let layer = 0; layer < plateLayers; layer++) {
    const at = SLOT.plateLayers + layer * LAYER_SLOTS;
    if (slots[at + LAYER_THICKNESS]! > 0) lowest = Math.min(lowest, metalMelts(slots, at));
  }
  return lowest;
}

function metalMelts(slots: Float64Array, at: number): number {
  return meltsFromOf(
    slots[at + METAL_SLOTS.density]!,
    slots[at + METAL_SLOTS.specificHeat]!,
    slots[at + METAL_SLOTS.relativePermeability]!,
  );
}

function motionValues(slots: Float64Array, results: Float64Array) {
  const floats = slots[SLOT.floats] !== FLOATS.nothing;
  const lifts = floats && results[Q.height]! > 0;
  const jumpHeight = results[Q.height]! + results[Q.overshoot]!;
  return {
    floats: flag(floats),
    lifts: flag(lifts),
    ...sidewaysValues(floats, slots, results),
    clamped: flag(!floats),
    rests: flag(floats && !lifts),
    gap: results[Q.gap]!,
    height: results[Q.height]!,
    fallEnergy: results[Q.fall_energy]!,
    switchOnLiftOverWeight: results[Q.switch_on_lift_over_weight]!,
    bounceGrowth: known(results[Q.bounce_growth]!, ON_REQUEST),
    guideDamping: results[Q.guide_damping]!,
    jumpOverHeadroom: known(
      jumpHeight / slots[SLOT.headroom]!,
      Number.isNaN(slots[SLOT.headroom]!) ? 'no `headroom` given' : ON_REQUEST,
    ),
    jumpHeight,
    landingSpeed: results[Q.landing_speed]!,
    panPeakLiftOverWeight: known(results[Q.pan_peak_lift_over_weight]!, NO_RADIUS),
    panLiftOverWeight: known(results[Q.pan_lift_over_weight]!, NO_RADIUS),
    currentOverChatter: results[Q.current]! / results[Q.chatter_current]!,
    humLevel: known(results[Q.hum_level]!, 'the sound of a rig that does not float is not computed'),
  } satisfies Partial<CautionValues>;
}

/** Beyond this share of the weight it is pushed off, and another caution is about that. */
const PUSHED = 1e-3;

/** Where the figures were not requested, or are not known, nothing is known to hold it. */
function sidewaysValues(floats: boolean, slots: Float64Array, results: Float64Array) {
  const force = results[Q.sideways_force]!;
  const why = results[Q.height]! > 0 ? whyNoSideways(results[Q.coil_outer_radius]!, slots) : null;
  const centres = results[Q.centring_stiffness]! > 0;
  const outward = force / (results[Q.fall_energy]! / results[Q.height]!);
  const shift = slots[SLOT.sidewaysShift]!;
  return {
    unheld: flag(floats && !centres && !(outward > PUSHED)),
    outwardOverWeight: why !== null ? known(outward, why) : Math.max(outward, 0) || 0,
    outwardForce: force,
    sidewaysShift: Number.isNaN(shift) ? USUAL_SHIFT * results[Q.coil_outer_radius]! : shift,
    postForce: results[Q.post_force]!,
  } satisfies Partial<CautionValues>;
}

function fieldValues(slots: Float64Array, results: Float64Array) {
  const frequency = slots[SLOT.frequency]!;
  const noLevel = 'no reference level below 1 Hz and above 10 MHz';
  return {
    visitorField: fieldAt(
      results[Q.field_visitor]!,
      results[Q.field_on_axis]!,
      'no `visitor_distance` given',
      'the visitor stands nearer than 1.2 coil radii',
    ),
    operatorField: fieldAt(
      results[Q.field_operator]!,
      results[Q.field_on_axis_operator]!,
      'no `operator_distance` given',
      'the operator stands nearer than 1.2 coil radii',
    ),
    coilField: results[Q.field_at_coil]!,
    implantLevel: known(implantLevel(frequency), noLevel),
    publicLevel: known(publicLevel(frequency), noLevel),
    occupationalLevel: known(occupationalLevel(frequency), noLevel),
  } satisfies Partial<CautionValues>;
}

/** The larger of beside the coil and above it; above it is known also where beside it is not. */
function fieldAt(beside: number, above: number, notGiven: string, tooNear: string): CautionValue {
  if (Number.isNaN(above)) return { missing: notGiven, atLeast: Number.NaN };
  return Number.isNaN(beside) ? { missing: tooNear, atLeast: above } : Math.max(beside, above);
}

/** @param atLeast a lower bound that makes the value unknown; null where it is known unless NaN */
function known(value: number, missing: string, atLeast: number | null = null): CautionValue {
  if (atLeast !== null) return { missing, atLeast };
  return Number.isNaN(value) ? { missing, atLeast: Number.NaN } : value;
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

function steelValues(plateLayers: number, slots: Float64Array, results: Float64Array) {
  const lossRatio = results[Q.linear_loss_ratio]!;
  const saturates = !Number.isNaN(lossRatio);
  return {
    steelIsWide: flag(isMagnetic(plateLayers, slots) && results[Q.plate_model] === PLATE_MODEL.wide),
    plateIsLinearSteel: flag(isMagnetic(plateLayers, slots) && !saturates),
    plateSaturates: flag(saturates),
    plateFluxDensity: results[Q.plate_flux_density]!,
    linearLossOff: Math.abs(lossRatio - 1),
    linearLossRatio: lossRatio,
    linearLiftRatio: results[Q.linear_lift_ratio]!,
  } satisfies Partial<CautionValues>;
}

function isMagnetic(plateLayers: number, slots: Float64Array): boolean {
  for (let layer = 0; layer < plateLayers; layer++) {
    const at = SLOT.plateLayers + layer * LAYER_SLOTS + METAL_SLOTS.relativePermeability;
    if (slots[at]! > MAGNETIC) return true;
  }
  return false;
}
