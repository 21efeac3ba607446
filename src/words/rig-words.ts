import { equalDiscError } from '../kernel/plate-outline.ts';
import {
  FLOATS,
  FUSE_KINDS,
  FUSE_SIDES,
  ISOLATED,
  LAYER_SLOTS,
  LAYER_THICKNESS,
  SLOT,
  WINDING_KINDS,
} from '../model/inputs.ts';
import type { Study } from '../model/study.ts';
import { toUnit, UNITS, type Unit } from '../model/units.ts';
import { sidesOf } from '../rig/plate-outline.ts';
import { formatDuration } from '../text/duration.ts';
import { measure, significant } from '../text/significant.ts';

/** A design's inputs: its varied values and all of its slots, SI. */
export interface DesignInputs {
  readonly values: Float64Array;
  readonly slots: Float64Array;
}

/** The rig of one design in the words of the trade: what it is called, and what it is. */
export function rigWords(
  study: Pick<Study, 'rig' | 'vary'>,
  design: DesignInputs,
): (readonly [part: string, words: string])[] {
  return [
    ['coil', coilWords(study, design)],
    ['plate', plateWords(study, design)],
    ['standoff', standoffWords(design)],
    ['supply', supplyWords(design)],
    ['surroundings', roomWords(design)],
    ['drive', driveWords(design)],
    ...dutyRows(design),
  ];
}

/** Shows all day, where the study gives their times. */
function dutyRows({ slots }: DesignInputs): (readonly [part: string, words: string])[] {
  const [on, off] = [slots[SLOT.dutyOn]!, slots[SLOT.dutyOff]!];
  if (Number.isNaN(on) || Number.isNaN(off)) return [];
  return [['all day', `${formatDuration(on)} on, ${formatDuration(off)} off`]];
}

function coilWords(study: Pick<Study, 'rig' | 'vary'>, design: DesignInputs): string {
  const { slots } = design;
  const phraseOf = reader(slots);
  const several = study.rig.windings > 0 ? `${study.rig.windings} windings in series` : null;
  return listed([
    textAt(study, design, 'coil.metal'),
    several ?? phraseOf(SLOT.turns, UNITS.one, '# turns'),
    phraseOf(SLOT.wire, UNITS.mm, '# wire'),
    (slots[SLOT.strands] ?? 1) > 1 ? phraseOf(SLOT.strands, UNITS.one, '# in hand') : null,
    insulationWords(study, design),
    several ? null : phraseOf(SLOT.layers, UNITS.one, '# layers'),
    several ? null : phraseOf(SLOT.innerRadius, UNITS.mm, 'inner radius #'),
    phraseOf(SLOT.sectionOuterRadius, UNITS.mm, 'outer radius #'),
    phraseOf(SLOT.sectionHeight, UNITS.mm, '# high'),
    heldWords(slots),
    phraseOf(SLOT.thermalClass, UNITS.degC, 'thermal class #'),
    phraseOf(SLOT.coilTemperature, UNITS.degC, 'computed at #'),
    slots[SLOT.floats] === FLOATS.coil ? 'floats' : null,
  ]);
}

/** What lies between the wires, where it is not what usually does. */
function heldWords(slots: Float64Array): string | null {
  const own = reader(slots)(SLOT.windingConductivity, UNITS.W_per_m_K, 'conducts # across its section');
  return own ?? (slots[SLOT.windingKind] === WINDING_KINDS.impregnated ? 'impregnated' : null);
}

function insulationWords(study: Pick<Study, 'rig' | 'vary'>, design: DesignInputs): string | null {
  const { slots } = design;
  const grade = slots[SLOT.insulationGrade]!;
  if (!Number.isNaN(grade)) return `enamel grade ${grade}`;
  const text = textAt(study, design, 'coil.insulation');
  return reader(slots)(SLOT.insulationThickness, UNITS.mm, '# of insulation on a side') ?? text;
}

function plateWords(study: Pick<Study, 'rig' | 'vary'>, design: DesignInputs): string {
  const { slots } = design;
  const phraseOf = reader(slots);
  const layers = Array.from({ length: study.rig.plateLayers }, (_, layer) => {
    const thickness = slots[SLOT.plateLayers + layer * LAYER_SLOTS + LAYER_THICKNESS]!;
    const size = thickness === Number.POSITIVE_INFINITY ? 'thick' : measure(thickness, UNITS.mm);
    return `${size} of ${textAt(study, design, `plate.layers.${layer}.metal`) ?? 'a metal of its own'}`;
  });
  const water = phraseOf(SLOT.loadWater, UNITS.kg, '# of water');
  const load =
    water &&
    listed([
      `${water} on it`,
      `from ${phraseOf(SLOT.loadFrom, UNITS.degC)} to ${phraseOf(SLOT.loadTo, UNITS.degC)}`,
    ]);
  const carried =
    slots[SLOT.plateExtraMass]! > 0 ? phraseOf(SLOT.plateExtraMass, UNITS.kg, '# more on it') : null;
  const floating = slots[SLOT.floats];
  const sides = sidesOf(slots);
  return listed([
    layers.join(' on '),
    sides ? sidesWords(sides, slots[SLOT.plateRadius]!) : phraseOf(SLOT.plateRadius, UNITS.mm, 'radius #'),
    phraseOf(SLOT.plateInnerRadius, UNITS.mm, 'hole of radius #'),
    carried,
    load,
    floating === FLOATS.plate ? 'floats' : null,
    floating === FLOATS.nothing ? 'clamped' : null,
  ]);
}

/** `300 mm square, computed as the disc of radius 161.6 mm that lifts alike within 4 %`. */
function sidesWords([one, other]: readonly [number, number], radius: number): string {
  const outline =
    one === other
      ? `${measure(one, UNITS.mm)} square`
      : `${measure(one, UNITS.mm)} by ${measure(other, UNITS.mm)}`;
  if (Number.isNaN(radius)) return outline;
  const error = 100 * equalDiscError(one, other);
  return `${outline}, computed as the disc of radius ${measure(radius, UNITS.mm)} that lifts alike within ${error} %`;
}

function standoffWords({ slots }: DesignInputs): string {
  const phraseOf = reader(slots);
  return listed([
    phraseOf(SLOT.standoff, UNITS.mm),
    phraseOf(SLOT.standoffBreakdown, UNITS.kV_per_mm, 'breaks down at #'),
  ]);
}

function supplyWords({ slots }: DesignInputs): string {
  const phraseOf = reader(slots);
  const limits = [phraseOf(SLOT.maxVoltage, UNITS.V), phraseOf(SLOT.maxCurrent, UNITS.A)].filter(
    (each) => each !== null,
  );
  const code = slots[SLOT.fuseKind]!;
  const kind = Object.entries(FUSE_KINDS).find(([, each]) => each === code)?.[0] ?? 'gG';
  const device = code >= FUSE_KINDS.B ? 'circuit breaker' : 'fuse';
  const side = slots[SLOT.fuseSide] === FUSE_SIDES.line ? 'line' : 'coil';
  return listed([
    phraseOf(SLOT.frequency, UNITS.Hz),
    phraseOf(SLOT.lineVoltage, UNITS.V, '# line'),
    slots[SLOT.isolated] === ISOLATED.true ? 'isolating transformer' : null,
    limits.length === 0 ? null : `at most ${limits.join(' and ')} to the coil`,
    phraseOf(SLOT.fuseRating, UNITS.A, `${device} # ${kind} on the ${side}'s side`),
    phraseOf(SLOT.seriesCapacitance, UNITS.uF, '# in series'),
    slots[SLOT.seriesResistance]! > 0 ? phraseOf(SLOT.seriesResistance, UNITS.ohm, '# in series') : null,
  ]);
}

function roomWords({ slots }: DesignInputs): string {
  const phraseOf = reader(slots);
  return listed([
    phraseOf(SLOT.surroundings, UNITS.degC),
    phraseOf(SLOT.visitorDistance, UNITS.m, 'visitors # from the axis'),
    phraseOf(SLOT.operatorDistance, UNITS.m, 'operator # from the axis'),
  ]);
}

function driveWords({ slots }: DesignInputs): string {
  const phraseOf = reader(slots);
  return (
    phraseOf(SLOT.driveCurrent, UNITS.A, '# held') ??
    phraseOf(SLOT.driveVoltage, UNITS.V, '# held') ??
    'up to the supply limit'
  );
}

/** What a study calls a choice: a metal, an enamel. */
function textAt(study: Pick<Study, 'rig' | 'vary'>, { values }: DesignInputs, path: string): string | null {
  const at = study.vary.findIndex((varied) => varied.path === path);
  const varied = study.vary[at];
  if (varied?.kind === 'choice') return varied.levels[values[at]!]!.label;
  // a reel from stock brings its metal
  for (const [v, one] of study.vary.entries()) {
    const brought = one.kind === 'choice' ? one.levels[values[v]!]!.texts?.[path] : undefined;
    if (brought !== undefined) return brought;
  }
  return study.rig.texts[path] ?? null;
}

function reader(slots: Float64Array) {
  /** Null where the study gives nothing; `#` is the value with its unit. */
  return (slot: number, unit: Unit, phrase = '#'): string | null => {
    const si = slots[slot]!;
    if (Number.isNaN(si)) return null;
    const text = unit === UNITS.one ? significant(toUnit(si, unit)) : measure(si, unit);
    return phrase.replace('#', () => text);
  };
}

function listed(parts: readonly (string | null)[]): string {
  return parts.filter((part) => part !== null).join(', ');
}
