import { type Dimension, sameDimension, TEMPERATURE } from '../model/dimension.ts';
import type { Unit } from '../model/units.ts';
import { siUnit } from './display.ts';
import { flawed, type Outcome } from './outcome.ts';
import { nearest } from './suggest.ts';
import { parseUnit, scaleBy } from './units.ts';

/** A number with its unit, as somebody wrote it. SI is `scaleBy(value + offset, factor)`. */
export interface Measure {
  readonly value: number;
  readonly factor: number;
  readonly offset: number;
}

export function toSI(value: number, { factor, offset }: Pick<Measure, 'factor' | 'offset'>): number {
  return scaleBy(value + offset, factor);
}

/** What a kind of value is called, and how one may be written. */
const EXAMPLES: readonly (readonly [suffix: string, example: string])[] = [
  ['m', 'a length such as 8 mm'],
  ['mm', 'a length such as 8 mm'],
  ['um', 'a length such as 8 um'],
  ['kg', 'a mass such as 150 g'],
  ['s', 'a time such as 10 s'],
  ['A', 'a current such as 12 A'],
  ['V', 'a voltage such as 230 V'],
  ['W', 'a power such as 300 W'],
  ['Hz', 'a frequency such as 50 Hz'],
  ['ohm', 'a resistance such as 0.1 ohm'],
  ['mH', 'an inductance such as 38 mH'],
  ['uF', 'a capacitance such as 300 uF'],
  ['degC', 'a temperature such as 22 degC'],
  ['N_s_per_m', 'a drag such as 0.2 N s/m'],
  ['m_per_s', 'a speed such as 0.5 m/s'],
  ['1_per_s', 'a rate such as 0.1 1/s'],
  ['T', 'a flux density such as 1.5 T'],
  ['A_per_m', 'a field such as 1000 A/m'],
  ['kV_per_mm', 'a dielectric strength such as 20 kV/mm'],
  ['ohm_m', 'a resistivity such as 2.83e-8 ohm m'],
  ['MS_per_m', 'a conductivity such as 34 MS/m or 43 %IACS'],
  ['per_K', 'a coefficient such as 0.004 1/K'],
  ['kg_per_m3', 'a density such as 2700 kg/m^3'],
  ['J_per_kg_K', 'a specific heat such as 900 J/(kg K)'],
];

/** `a length such as 8 mm`, for messages. */
export function kindOf(unit: Unit): string {
  return EXAMPLES.find(([suffix]) => suffix === unit.suffix)?.[1] ?? 'a plain number';
}

/** `m`, `V`, `kg/m³`, or `no unit`. */
export function dimensionText(dimension: Dimension): string {
  return siUnit(null, dimension).symbol || 'no unit';
}

/** Units as people and this program print them, and as they are written. */
const PRINTED: readonly (readonly [RegExp, string])[] = [
  [/°\s*(?=[CF])/g, 'deg'],
  [/[Ω\u2126]/g, 'ohm'],
  [/[µ\u03bc]/g, 'u'],
  [/²/g, '^2'],
  [/³/g, '^3'],
  [/[·⋅×]/g, ' '],
];

/** `22 °C` is `22 degC`, `A/mm²` is `A/mm^2`. */
function asWritten(unit: string): string {
  return PRINTED.reduce((text, [printed, plain]) => text.replace(printed, plain), unit);
}

const NUMBER = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*/;

/**
 * Reads the text of a value, such as `8 mm`, for an input of the given unit. A text without a unit is taken
 * as a plain number would be. Temperatures may be in degC, degF or K.
 */
export function parseMeasure(text: string, unit: Unit): Outcome<Measure> {
  const match = NUMBER.exec(text);
  if (!match) {
    return flawed('not-a-measure', `\`${text}\``, kindOf(unit));
  }
  const value = Number(match[1]);
  if (!Number.isFinite(value)) return flawed('overflow', `\`${text}\``, 'a finite number');
  const at = match[0].length;
  const rest = text.slice(at).trim();
  if (rest === '') return { ok: true, value: { value, ...plainScale(unit) } };
  if (/^,\d/.test(rest)) return flawed('decimal-comma', `\`${text}\``, 'a decimal point', at, 1);
  const written = parseUnit(asWritten(rest));
  if (written === null) {
    const better = nearestUnit(rest, unit);
    return flawed(
      'unknown-unit',
      `\`${rest}\` is not a unit`,
      `${kindOf(unit)}${better === null ? '' : `; did you mean \`${better}\`?`}`,
      at,
      rest.length,
    );
  }
  if (!sameDimension(written.dimension, unit.dimension)) {
    return flawed(
      'wrong-dimension',
      `\`${text.trim()}\` is in ${dimensionText(written.dimension)}`,
      kindOf(unit),
      at,
      rest.length,
    );
  }
  return { ok: true, value: { value, factor: written.factor, offset: written.offset } };
}

/** A unit of the wanted kind: the same but for small and large letters, or else one that is near. */
function nearestUnit(text: string, { dimension }: Unit): string | null {
  const fitting = COMMON_UNITS.filter((each) => sameDimension(parseUnit(each)!.dimension, dimension));
  const alike = fitting.filter((each) => each.toLowerCase() === text.toLowerCase());
  return alike.length === 1 ? alike[0]! : nearest(text, fitting);
}

/** How a plain number is read: SI, temperatures as degC. */
export function plainScale(unit: Unit): { factor: number; offset: number } {
  const celsius = sameDimension(unit.dimension, TEMPERATURE) && unit.offset !== 0;
  return { factor: 1, offset: celsius ? -unit.offset : 0 };
}

// biome-ignore format: one list
const COMMON_UNITS = [
  'm', 'mm', 'cm', 'um', 'in', 'mil', 'ft', 'kg', 'g', 'mg', 'lb', 's', 'ms', 'min', 'A', 'mA', 'V', 'mV', 'kV',
  'W', 'kW', 'Hz', 'kHz', 'ohm', 'mohm', 'kohm', 'mH', 'uH', 'uF', 'nF', 'degC', 'degF', 'K', 'N', 'J', 'mT', 'T',
  'kV/mm', 'ohm m', '1/K', 'kg/m^3', 'J/(kg K)',
];
