import { UNITS, type Unit } from './units.ts';

/** What cautions look at, SI, temperatures in K; NaN where not known (raises nothing); flags are 0 or 1. */
export interface CautionValues {
  /** Peak in a magnetic layer, T. */
  readonly plateFluxDensity: number;
  /** Flag: the standoff is a named insulator (its breakdown is given). */
  readonly standoffInsulates: number;
  readonly insulationMargin: number;
  /** At the visitor, beside or above, the larger, T rms. */
  readonly visitorField: number;
  /** Reference levels at the supply frequency, T rms. */
  readonly publicLevel: number;
  readonly occupationalLevel: number;
  /** Steady. */
  readonly coilTemperature: number;
  readonly thermalClass: number;
  /** Flag: no steady temperature. */
  readonly coilRunsAway: number;
  readonly plateTemperature: number;
  /** Largest of the voltage to earth, as far as known, and of supply, coil and capacitor voltage, V rms. */
  readonly highestVoltage: number;
  /** Flag: the coil is fed from the mains, by a variable transformer or directly, with no isolating transformer. */
  readonly mainsFed: number;
  /** Flag: coil or plate floats. */
  readonly floats: number;
  /** Average lift over weight when the operating supply voltage is applied at once. */
  readonly switchOnLiftOverWeight: number;
  readonly fuseMargin: number;
  /** Overall wire area over section area. */
  readonly packing: number;
  /** Flag: a plate layer is magnetic. */
  readonly plateIsMagnetic: number;
  /** Plate radius over the coil's outer radius. */
  readonly plateOverCoilRadius: number;
  /** Clamped heating rig: mean and peak lift over the weight of pan and load. */
  readonly panLiftOverWeight: number;
  readonly panPeakLiftOverWeight: number;
}

/** A caution as data: raised when the value lies strictly above or below its threshold. */
export interface CautionRule {
  readonly id: string;
  /** What was found, in a few words. */
  readonly rule: string;
  readonly value: keyof CautionValues;
  readonly raisedWhen: 'above' | 'below';
  /** SI, or another of the values. */
  readonly threshold: number | keyof CautionValues;
  /** Only where this flag is set. */
  readonly only?: keyof CautionValues;
  readonly unit: Unit;
  readonly source: string;
  readonly advice: string;
}

/** A caution raised for a design. Value and threshold in SI; `unit` is what people read them in. */
export interface Caution {
  readonly id: string;
  readonly rule: string;
  readonly value: number;
  readonly threshold: number;
  readonly unit: Unit;
  readonly source: string;
  readonly advice: string;
}

/** Closes every list of cautions, also an empty one. */
export const CAUTIONS_REMINDER =
  'These cautions are reminders, not clearance: local codes and a licensed electrician decide what may be built and switched on.';

const SET = 0.5;
const ICNIRP = 'ICNIRP 2010, Health Phys. 99, 818-836, reference levels (seen quoted at second hand)';
const PRACTICE = 'workshop practice, no published source';

export const CAUTION_RULES: readonly CautionRule[] = Object.freeze([
  {
    id: 'saturation',
    rule: 'the steel saturates: a linear plate is optimistic',
    value: 'plateFluxDensity',
    raisedWhen: 'above',
    threshold: 1.5,
    unit: UNITS.T,
    source: 'saturation of plain steel begins near 1.5 T (from memory)',
    advice:
      'Take a thicker sheet, a larger gap or less current, or expect less heat than computed and measure.',
  },
  {
    id: 'bare-enamel',
    rule: 'the enamelled winding rests on the plate without a named insulator between',
    value: 'standoffInsulates',
    raisedWhen: 'below',
    threshold: SET,
    unit: UNITS.one,
    source: PRACTICE,
    advice:
      'Enamel chafes when the coil chatters. Put a sheet of known dielectric strength between and give its breakdown.',
  },
  {
    id: 'insulation-margin',
    rule: 'little insulation between winding and earthed plate',
    value: 'insulationMargin',
    raisedWhen: 'below',
    threshold: 2,
    unit: UNITS.one,
    source:
      'test voltages of new wire, IS 13730 / IEC 60317 (seen in a maker’s table); the factor two is workshop practice',
    advice:
      'Use a thicker or better standoff, a higher enamel grade, or fewer volts; mind the rise across a series capacitor.',
  },
  {
    id: 'field-public',
    rule: 'the field at the visitor exceeds the reference level for the public',
    value: 'visitorField',
    raisedWhen: 'above',
    threshold: 'publicLevel',
    unit: UNITS.mT,
    source: ICNIRP,
    advice:
      'Move the barrier outward, or lower current times turns, until the field at the barrier is below it.',
  },
  {
    id: 'field-occupational',
    rule: 'the field at the visitor exceeds the reference level for people at work',
    value: 'visitorField',
    raisedWhen: 'above',
    threshold: 'occupationalLevel',
    unit: UNITS.mT,
    source: ICNIRP,
    advice: 'Nobody should stand this near while it runs; operate it from farther away.',
  },
  {
    id: 'pacemaker',
    rule: 'the field at the visitor can disturb pacemakers and other implants',
    value: 'visitorField',
    raisedWhen: 'above',
    threshold: 0.1e-3,
    unit: UNITS.mT,
    source:
      'a university restricts access above 0.1 mT at 60 Hz; meeting ICNIRP 2010 need not preclude interference (both seen)',
    advice:
      'Put up a warning at the entrance and keep wearers of implants beyond the line where the field falls below it.',
  },
  {
    id: 'hot-coil',
    rule: 'the coil gets too hot to touch',
    value: 'coilTemperature',
    raisedWhen: 'above',
    threshold: 321.15,
    unit: UNITS.degC,
    source:
      'ISO 13732-1, bare metal touched for 10 min: 48 °C (seen quoted); for 1 s 65 to 70 °C, for 1 min 51 °C (from memory)',
    advice: 'Guard it, mark it as hot, and let it cool before handling.',
  },
  {
    id: 'hot-plate',
    rule: 'the plate gets too hot to touch',
    value: 'plateTemperature',
    raisedWhen: 'above',
    threshold: 321.15,
    unit: UNITS.degC,
    source:
      'ISO 13732-1, bare metal touched for 10 min: 48 °C (seen quoted); for 1 s 65 to 70 °C, for 1 min 51 °C (from memory)',
    advice: 'Guard it and mark it as hot; the place under the winding is hotter than the mean given here.',
  },
  {
    id: 'touch-voltage',
    rule: 'more than 50 V ac',
    value: 'highestVoltage',
    raisedWhen: 'above',
    threshold: 50,
    unit: UNITS.V,
    source: 'IEC 60364-4-41: conventional touch voltage limit, dry, 50 V ac rms (seen quoted at second hand)',
    advice:
      'Enclose every live part, joints and capacitor included; discharge the capacitor before reaching in; half the limit where it is wet.',
  },
  {
    id: 'not-isolated',
    rule: 'a variable transformer does not isolate: the coil is live to earth at any setting',
    value: 'mainsFed',
    raisedWhen: 'above',
    threshold: SET,
    unit: UNITS.one,
    source: 'a single tapped winding joins input and output (any textbook of transformers)',
    advice:
      'Earth the plate, feed the rig through a residual-current device of 30 mA, and consider an isolating transformer.',
  },
  {
    id: 'no-guidance',
    rule: 'nothing holds a floating coil or plate sideways over a wide plate',
    value: 'floats',
    raisedWhen: 'above',
    threshold: SET,
    unit: UNITS.one,
    source: 'by symmetry a uniform wide plate gives no sideways force',
    advice: 'Use posts or tethers with play, and leads slack enough to follow the whole travel.',
  },
  {
    id: 'switch-on',
    rule: 'switched on at full voltage it jumps',
    value: 'switchOnLiftOverWeight',
    raisedWhen: 'above',
    threshold: 1,
    unit: UNITS.one,
    source: 'computed: average lift at the standoff over weight',
    advice:
      'Raise the drive from zero every time, and see that it cannot be switched on at a raised setting.',
  },
  {
    id: 'fuse',
    rule: 'the current exceeds the fuse’s rating',
    value: 'fuseMargin',
    raisedWhen: 'below',
    threshold: 1,
    unit: UNITS.one,
    source:
      'IEC 60269-1, IEC 60127-2: the rating is what a fuse carries for good (gates seen quoted at second hand)',
    advice:
      'The fuse will blow sooner or later: lower the drive. Do not fit a larger fuse than wiring and outlet allow.',
  },
  {
    id: 'thermal-class',
    rule: 'held on, the winding passes its thermal class',
    value: 'coilTemperature',
    raisedWhen: 'above',
    threshold: 'thermalClass',
    unit: UNITS.degC,
    source: 'IEC 60085 (classes seen quoted at second hand)',
    advice:
      'Keep to the permitted on-time, starting cold, or lower the current; watch the resistance rise with a meter. Inside the winding it is hotter than the mean.',
  },
  {
    id: 'runaway',
    rule: 'held on, the winding never settles: it heats until it fails',
    value: 'coilRunsAway',
    raisedWhen: 'above',
    threshold: SET,
    unit: UNITS.one,
    source: 'computed: the loss, rising with resistivity, exceeds the cooling at every temperature',
    advice: 'Limit the on-time with a timer or a thermal switch in the winding.',
  },
  {
    id: 'packing',
    rule: 'wires packed closer than hand winding can: more than pi/4 of the section',
    value: 'packing',
    raisedWhen: 'above',
    threshold: Math.PI / 4,
    unit: UNITS.one,
    source: 'square order fills pi/4, the hexagonal one 0.9069 (geometry)',
    advice: 'Allow a larger section, or plan on winding layer into layer with care.',
  },
  {
    id: 'small-magnetic-plate',
    rule: 'a magnetic plate hardly wider than the coil is computed as infinitely wide',
    value: 'plateOverCoilRadius',
    raisedWhen: 'below',
    threshold: 2,
    only: 'plateIsMagnetic',
    unit: UNITS.one,
    source: 'the finite disc is solved for plates that are not magnetic only',
    advice: 'Take the numbers as a guide and measure; the rim of the plate is left out.',
  },
  {
    id: 'rattles',
    rule: 'the peak force exceeds the weight of pan and load: it rattles',
    value: 'panPeakLiftOverWeight',
    raisedWhen: 'above',
    threshold: 1,
    unit: UNITS.one,
    source: 'computed: average plus double-frequency force over weight',
    advice: 'Lower the current, load the pan or clamp it.',
  },
  {
    id: 'pan-floats',
    rule: 'the average force exceeds the weight of pan and load: it may float away',
    value: 'panLiftOverWeight',
    raisedWhen: 'above',
    threshold: 1,
    unit: UNITS.one,
    source: 'computed: average force over weight',
    advice: 'Lower the current, load the pan or clamp it: hot contents may spill.',
  },
] as const satisfies readonly CautionRule[]);

function isRaised(rule: CautionRule, values: CautionValues, threshold: number): boolean {
  if (rule.only !== undefined && !(values[rule.only] > SET)) return false;
  const value = values[rule.value];
  return rule.raisedWhen === 'above' ? value > threshold : value < threshold;
}

/**
 * The cautions that a design raises, in the order of the rules. They never block a calculation; whoever shows them
 * closes with CAUTIONS_REMINDER.
 */
export function cautions(values: CautionValues): Caution[] {
  return CAUTION_RULES.flatMap((rule) => {
    const threshold = typeof rule.threshold === 'number' ? rule.threshold : values[rule.threshold];
    if (!isRaised(rule, values, threshold)) return [];
    const { id, unit, source, advice } = rule;
    return [{ id, rule: rule.rule, value: values[rule.value], threshold, unit, source, advice }];
  });
}
