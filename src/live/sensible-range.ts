import type { InputSpec } from '../model/inputs.ts';
import { fromUnit } from '../model/units.ts';

/**
 * What a slider covers where the study gives no range: rigs that fit on a table and hang on one socket. In the unit of the
 * input, by the end of its path. Common practice, no source.
 */
const RANGES: Readonly<Record<string, readonly [low: number, high: number]>> = {
  'drive.current': [0.5, 40],
  'drive.voltage': [1, 400],
  wire: [0.2, 5],
  strands: [1, 20],
  'insulation.thickness': [0, 0.5],
  turns: [1, 1000],
  layers: [1, 40],
  'coil.inner_radius': [5, 300],
  'section.outer_radius': [10, 500],
  'section.height': [1, 200],
  offset: [0, 100],
  inner_radius: [0, 200],
  thermal_class: [90, 240],
  at_temperature: [0, 200],
  extra_mass: [0, 3],
  thickness: [0.5, 40],
  'plate.radius': [30, 1000],
  'plate.square': [60, 2000],
  'sides.0': [60, 2000],
  'sides.1': [60, 2000],
  'load.water': [0.1, 5],
  'load.from': [0, 30],
  'load.to': [40, 100],
  standoff: [0.5, 20],
  'standoff.breakdown': [1, 100],
  'standoff.restitution': [0, 1],
  conductivity: [0.05, 5],
  'duty.on': [1, 3600],
  'duty.off': [0, 3600],
  'guides.play': [0.5, 20],
  'guides.drag': [0, 10],
  frequency: [10, 400],
  line_voltage: [100, 400],
  max_voltage: [10, 400],
  max_current: [1, 63],
  'fuse.rating': [1, 63],
  series_capacitance: [1, 2000],
  series_resistance: [0, 10],
  'surroundings.temperature': [-10, 45],
  visitor_distance: [0.3, 5],
  operator_distance: [0.3, 5],
  headroom: [10, 2000],
  sideways_shift: [0.5, 20],
  temperature_coefficient: [0, 0.006],
  density: [1000, 9000],
  specific_heat: [200, 1200],
  relative_permeability: [1, 1000],
};

/** A metal of its own: from silver to a poor alloy. */
const RESISTIVITY = [1.5e-8, 1.5e-6] as const;
/** Beyond this ratio of its ends a slider goes by ratios. */
const MANY = 50;

export interface SliderRange {
  readonly low: number;
  readonly high: number;
  readonly spacing: 'linear' | 'log';
}

/** SI. The range holds the present value, if there is one, and what the study varies. */
export function sliderRange(input: InputSpec, present: number, varied: Float64Array): SliderRange {
  const own = extent(varied);
  const [low, high] = own[0] < own[1] ? own : usualRange(input, present);
  // of one level, too, that does not vary
  const [least, most] = extent([own[0], own[1], present]);
  const from = Math.max(Math.min(low, least), input.above ? Number.MIN_VALUE : input.minimum);
  const to = Math.min(Math.max(high, most), input.maximum);
  return {
    low: from,
    high: to,
    spacing: from > 0 && to / from >= MANY && input.unit.offset === 0 ? 'log' : 'linear',
  };
}

/** Of the finite ones; of none the greatest comes before the least. A spread of a million arguments does not fit the stack. */
function extent(values: Float64Array | readonly number[]): [low: number, high: number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}

function usualRange(input: InputSpec, present: number): readonly [number, number] {
  if (input.path.endsWith('resistivity')) return RESISTIVITY;
  const ends = input.path.split('.');
  for (let first = 0; first < ends.length; first++) {
    const range = RANGES[ends.slice(first).join('.')];
    if (range) return [fromUnit(range[0], input.unit), fromUnit(range[1], input.unit)];
  }
  return present > 0 ? [present / 4, present * 4] : [0, 1];
}

/** Positions of a slider. */
export const STEPS = 1000;

export function positionOf(value: number, { low, high, spacing }: SliderRange): number {
  if (!Number.isFinite(value)) return value > 0 ? STEPS : 0;
  const fraction =
    spacing === 'log' ? Math.log(value / low) / Math.log(high / low) : (value - low) / (high - low);
  return Math.round(STEPS * Math.min(1, Math.max(0, fraction)));
}

/** Digits that a slider sets: nobody drags to a micrometre. */
const DIGITS = 4;

/** SI, round in the unit of the input. */
export function valueAt(position: number, { low, high, spacing }: SliderRange, input: InputSpec): number {
  const fraction = position / STEPS;
  const plain = spacing === 'log' ? low * (high / low) ** fraction : low + (high - low) * fraction;
  const { unit } = input;
  const read = plain * unit.scale + unit.offset;
  const span = (high - low) * unit.scale;
  // a step of a linear slider, in its own digits
  const round = input.integer
    ? Math.round(read)
    : spacing === 'log'
      ? Number(read.toPrecision(DIGITS - 1))
      : rounded(read, span);
  const si = fromUnit(round, unit);
  return Math.min(Math.max(si, Math.min(low, high)), high);
}

function rounded(value: number, span: number): number {
  const step = 10 ** Math.floor(Math.log10(span / STEPS));
  return Number((Math.round(value / step) * step).toPrecision(12));
}
