import { SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import { toUnit, UNITS } from '../model/units.ts';
import type { WindingGuide } from '../rig/winding-guide.ts';
import { aboutDuration, roundTemperature } from '../text/about-duration.ts';
import { formatDuration } from '../text/duration.ts';
import { measure, significant } from '../text/significant.ts';
import type { LimitStanding } from '../words/limit-standing.ts';
import { SENSITIVITY_NOTE } from '../words/sensitivity-words.ts';
import { sidewaysWords } from '../words/sideways-words.ts';
import { studyNotes } from '../words/study-notes.ts';
import type { BenchCard } from './bench-card.ts';

// Past 300 lines: the topics of a card in reading order, one function a group.

type Topics = (readonly [topic: string, words: string])[];

/** What a design does at its own drive, topic by topic; an empty topic is left out. */
export function operatingTopics(card: BenchCard): Topics {
  const values = valuesOf(card);
  return spoken([
    ...standingTopics(card, values),
    ...driveTopics(card, values),
    ...switchingTopics(card, values),
    ...heatTopics(card, values),
    ...surroundingTopics(card, values),
  ]);
}

type Parts = (readonly [topic: string, parts: readonly (string | null)[]])[];

/** A card's quantities in words. */
interface Values {
  readonly format: (name: QuantityName, phrase?: string) => string | null;
  readonly about: (name: QuantityName, phrase?: string) => string | null;
}

function valuesOf({ point: { results } }: BenchCard): Values {
  /** Null for an empty cell; `#` is the value with its unit. */
  const format = (name: QuantityName, phrase = '#'): string | null => {
    const { unit, index } = QUANTITIES[Q[name]]!;
    const si = results[index]!;
    return Number.isNaN(si) ? null : phrase.replace('#', () => formatValue(si, unit));
  };
  /** Likewise, with the digits that times and temperatures of heat are good for. */
  const about = (name: QuantityName, phrase = '#'): string | null => {
    const si = results[Q[name]]!;
    if (Number.isNaN(si)) return null;
    const isTime = QUANTITIES[Q[name]]!.unit === UNITS.s;
    return phrase.replace('#', isTime ? formatHeatTime(si) : formatHeat(si));
  };
  return { format, about };
}

/** Numbers go so far, and no farther, in `rig/levers.ts`. */
const NO_REMEDY =
  'no single change within a factor of eight lifts it; `eddylift improve` looks for two together';

/** Why it rests, and what becomes of its height while it warms. */
function standingTopics({ point: { results }, slots, resting }: BenchCard, { format, about }: Values): Parts {
  const isSinking = results[Q.height_after_on_time]! < results[Q.height]!;
  return [
    ['why it rests', [resting?.why ?? null]],
    ...(resting?.remedies ?? []).map((words, i) => [`remedy ${i + 1}`, [words]] as const),
    ['remedies', [resting?.remedies.length === 0 ? NO_REMEDY : null]],
    [
      'cold, then warm',
      [
        isSinking ? format('height', 'set cold and left alone it floats # high') : null,
        isSinking ? format('height_after_on_time', `# ${onTimeWords(slots, results)}`) : null,
        results[Q.lands_after]! < Number.POSITIVE_INFINITY
          ? about('lands_after', 'and comes down after #')
          : null,
      ],
    ],
    [
      'all day',
      [
        about('coil_peak', 'hottest place up to #'),
        about('plate_peak', 'plate up to #'),
        format('height_least', 'never lower than #'),
      ],
    ],
  ];
}

function driveTopics({ point: { results }, status, reason, slots }: BenchCard, { format }: Values): Parts {
  const limit = QUANTITIES[Q.first_limit]!.words[results[Q.first_limit]!] ?? 'none';
  return [
    ['chatter begins', [format('chatter_current')]],
    ['lift-off', [format('liftoff_current'), format('liftoff_voltage')]],
    [
      'at its drive',
      [
        status === 'lifts' ? format('height', 'floats # high') : status,
        reason === '' ? null : reason,
        format('current'),
        format('voltage'),
      ],
    ],
    [
      'power',
      [
        format('power'),
        format('coil_loss', '# in the coil'),
        format('plate_loss', '# in the plate'),
        format('power_factor', 'power factor #'),
      ],
    ],
    [
      'motion',
      [
        format('natural_frequency', 'natural frequency #'),
        results[Q.bounce_growth]! > 0
          ? format('bounce_growth', 'a small bounce grows by itself at #')
          : format('bounce_growth', 'a small bounce dies away by itself (growth #)'),
        results[Q.guide_damping]! > 0 ? format('guide_damping', 'a drag of # in all stops it') : null,
        format('vibration', 'vibration amplitude #'),
      ],
    ],
    ['sideways', sidewaysWords(slots, results)],
    [
      'supply',
      [
        format('supply_voltage', '# at the variable transformer'),
        format('capacitor_voltage', '# across the capacitor'),
        format('line_current', '# from the line'),
        limit === 'none' ? null : `nearest limit: ${limit}`,
        Number.isFinite(results[Q.transformer_holds]!)
          ? format('transformer_holds', 'the variable transformer gives this for #')
          : null,
      ],
    ],
    [
      'fuse',
      [
        results[Q.fuse_margin]! > 0 ? `loaded to ${significant(100 / results[Q.fuse_margin]!)} %` : null,
        format(
          'fuse_holds',
          results[Q.fuse_holds] === Number.POSITIVE_INFINITY ? 'holds' : 'holds # at least',
        ),
        Number.isFinite(results[Q.fuse_blows]!) ? format('fuse_blows', 'blows within #') : null,
      ],
    ],
  ];
}

function switchingTopics({ point: { results }, status }: BenchCard, { format }: Values): Parts {
  const isClamped = status === 'clamped';
  return [
    [
      'switched on at once',
      // a clamped rig stays where it is: nothing new
      isClamped
        ? []
        : [
            format('switch_on_current'),
            format('switch_on_peak', 'first peak up to #'),
            results[Q.switch_on_trips]! > 0 ? 'the breaker may trip' : null,
            format('switch_on_lift_over_weight', 'lifts # times the weight'),
            format('peak_switch_on_current', 'up to # as it jumps'),
            format('overshoot', 'jumps # beyond its height'),
            results[Q.settling_time] === Number.POSITIVE_INFINITY
              ? 'does not come to rest'
              : format('settling_time', 'within a millimetre of it after #'),
          ],
    ],
    [
      'when the power fails',
      status === 'lifts' ? [format('landing_speed', 'it lands at #'), format('fall_energy', 'with #')] : [],
    ],
    [
      'compensating capacitor',
      [
        format('pf_correction_capacitance', '# across the outlet'),
        format('pf_correction_current', 'which then gives #'),
      ],
    ],
  ];
}

function heatTopics({ point: { results }, status, slots }: BenchCard, { format, about }: Values): Parts {
  const isTimed = Number.isFinite(results[Q.coil_on_time]!);
  const isClamped = status === 'clamped';
  const isLoaded = !Number.isNaN(slots[SLOT.loadWater]!);
  const hottest = formatTemperature(slots[SLOT.thermalClass]!);
  return [
    [
      'coil heat',
      [
        format('current_density'),
        about('coil_temperature', 'ends at a mean of # if left on') ?? 'never settles if left on',
        about('coil_hot_spot', '# at the hottest place'),
        about('coil_surface', '# at the face'),
        isTimed ? about('coil_on_time', `may stay on # from cold (then ${hottest})`) : null,
        Number.isFinite(results[Q.coil_cool_time]!) ? about('coil_cool_time', 'cools down in #') : null,
      ],
    ],
    [
      'plate heat',
      [
        // both are those of the plate alone
        about(
          'plate_temperature',
          isLoaded ? 'end temperature # if boiled dry' : 'end temperature # if left on',
        ),
        !isLoaded && Number.isFinite(results[Q.plate_time_to_60degC]!)
          ? about('plate_time_to_60degC', '60 °C after #')
          : null,
        format('plate_flux_density', '# peak in the steel'),
      ],
    ],
    [
      'load',
      [
        results[Q.load_heating_time] === Number.POSITIVE_INFINITY
          ? format(
              'load_power_needed',
              `never gets to ${formatTemperature(slots[SLOT.loadTo]!)}: the plate would have to take more than #, it takes ${measure(results[Q.plate_loss]!, UNITS.W)}`,
            )
          : about('load_heating_time', 'warm after #'),
        isClamped ? format('heating_efficiency', 'plate takes # of the power') : null,
        format('pan_lift_over_weight', 'lift # times its weight'),
        format('pan_peak_lift_over_weight', 'at the peaks #'),
      ],
    ],
  ];
}

/** What it costs, and what surrounds it. */
function surroundingTopics({ study }: BenchCard, { format }: Values): Parts {
  return [
    [
      'stock and cost',
      [
        format('wire_to_buy', '# of wire'),
        format('wire_cost', 'wire for #'),
        format('plate_cost', 'plate for #'),
        format('rig_cost', 'rig for # in all'),
      ],
    ],
    ['note', studyNotes(study)],
    [
      'insulation',
      [
        format('volts_per_turn', '# a turn'),
        format('volts_between_layers', '# between layers'),
        format('voltage_to_earth', 'up to # to earth'),
        format('insulation_margin', 'safety factor # between winding and plate'),
        format('impulse_margin', '# times the impulse of the mains'),
      ],
    ],
    [
      'field at a visitor',
      [format('field_visitor', '# beside the coil'), format('field_on_axis', '# as far above it')],
    ],
    [
      'field at the operator',
      [format('field_operator', '# beside the coil'), format('field_on_axis_operator', '# as far above it')],
    ],
  ];
}

/** How long it is on, as `height_after_on_time` has it. */
function onTimeWords(slots: Float64Array, results: Float64Array): string {
  const duty = slots[SLOT.dutyOn]!;
  const time = Number.isNaN(duty) ? results[Q.coil_on_time]! : duty;
  return time < Number.POSITIVE_INFINITY
    ? `after ${Number.isNaN(duty) ? aboutDuration(time) : formatDuration(time)}`
    : 'in the end';
}

/** Of the winding with this index. */
export function windingTitle({ windings }: BenchCard, index: number): string {
  return windings.length === 1 ? 'Winding it' : `Winding ${index + 1} of ${windings.length}`;
}

/** How to wind a winding, and what a meter then reads; `hot` only where it is the coil's only one. */
export function windingTopics({ slots, point, windings }: BenchCard, guide: WindingGuide): Topics {
  const { turns, strands, layers, wiresPerLayer, wiresInLastLayer } = guide;
  const inHand = strands > 1;
  const perLayer = inHand ? `${wiresPerLayer} wires` : `${wiresPerLayer} turns`;
  const last = wiresInLastLayer === wiresPerLayer ? '' : `, the last of ${wiresInLastLayer}`;
  const isLaid = Number.isFinite(wiresPerLayer);
  const room = formatTemperature(slots[SLOT.surroundings]!);
  const hot = windings.length === 1 ? point.results[Q.resistance_hot]! : Number.NaN;
  const reached = Math.min(
    ...[point.results[Q.coil_hot_spot]!, slots[SLOT.thermalClass]!].filter((t) => !Number.isNaN(t)),
  );
  return spoken([
    [
      'wire',
      [
        `${measure(guide.wire, UNITS.mm)} bare, ${measure(guide.overall, UNITS.mm)} overall`,
        `${measure(guide.wireLength, UNITS.m)}${inHand ? ` of each of ${strands} in hand` : ''}`,
        `${measure(guide.wireMass, UNITS.kg)}${inHand ? ' in all' : ''}`,
      ],
    ],
    ['turns', [`${turns}`, isLaid ? `${layers} layers of ${perLayer}${last}` : 'section fixed by hand']],
    [
      'section',
      [
        `radius ${significant(toUnit(guide.innerRadius, UNITS.mm))} to ${measure(guide.outerRadius, UNITS.mm)}`,
        `${measure(guide.height, UNITS.mm)} high`,
      ],
    ],
    [
      'on the meter',
      [
        `${measure(guide.coldResistance, UNITS.ohm)} cold (${room})`,
        Number.isNaN(hot)
          ? null
          : `${measure(hot, UNITS.ohm)} hot (hottest place ${formatTemperature(reached)})`,
      ],
    ],
  ]);
}

/** Each limit of the study: met or not, what the design has, and what is left. */
export function limitRows(limits: readonly LimitStanding[]): (readonly string[])[] {
  return limits.map(({ text, met, value, rest }) => [met ? 'met' : 'not met', text, value ?? '', rest]);
}

export const SPREAD_TITLE = 'Within its tolerances';

/** How the design turns out within the study's tolerances; empty where it has none. */
export function spreadRows({ spread }: BenchCard): (readonly string[])[] {
  if (spread === null) return [];
  return [
    ['allowed for', spread.allowed],
    ...spread.rows,
    ...(spread.note === null ? [] : [['note', spread.note]]),
  ];
}

/** What a little more of each input changes; empty where that is not known. */
export function sensitivityRows({ sensitivities }: BenchCard): (readonly string[])[] {
  return sensitivities === null ? [] : [...sensitivities.rows, ['note', SENSITIVITY_NOTE]];
}

/** A time that may have no end: `endless` is its text. */
function formatTime(seconds: number, endless = 'no limit'): string {
  return seconds === Number.POSITIVE_INFINITY ? endless : formatDuration(seconds);
}

/** Nobody knows a winding's temperature to a tenth. */
function formatTemperature(si: number): string {
  return `${Math.round(toUnit(si, UNITS.degC))} °C`;
}

/** A time of heat. */
export function formatHeatTime(seconds: number, endless = 'no limit'): string {
  return seconds === Number.POSITIVE_INFINITY ? endless : aboutDuration(seconds);
}

/** A temperature that follows from heat. */
function formatHeat(si: number): string {
  return `${roundTemperature(toUnit(si, UNITS.degC))} °C`;
}

function formatValue(si: number, unit: (typeof UNITS)[keyof typeof UNITS]): string {
  if (unit === UNITS.s) return formatTime(si);
  return unit === UNITS.degC ? formatTemperature(si) : measure(si, unit);
}

function spoken(topics: readonly (readonly [topic: string, parts: readonly (string | null)[]])[]): Topics {
  return topics
    .map(([topic, parts]) => [topic, parts.filter((part) => part !== null).join(', ')] as const)
    .filter(([, words]) => words !== '');
}
