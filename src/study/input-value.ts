import { kindOf, type Measure, parseMeasure, plainScale, toSI } from '../expression/measure.ts';
import { flawed, type Outcome } from '../expression/outcome.ts';
import { type InputSpec, SLOT } from '../model/inputs.ts';
import { inputToUnit, UNITS } from '../model/units.ts';
import { AWG_RANGE, awgDiameter, parseAwg } from '../model/wires.ts';
import { quote } from './clean.ts';
import { shortPath } from './paths.ts';

/** The text for the last layer's thickness that makes it a half-space. */
export const THICK = 'thick';

function isThickness(spec: InputSpec): boolean {
  return /^plate\.layers\.\d+\.thickness$/.test(spec.path);
}

function bound(si: number, spec: InputSpec): string {
  const value = inputToUnit(si, spec.unit).toLocaleString('en-GB', { maximumSignificantDigits: 6 });
  return spec.unit.symbol === '' ? value : `${value} ${spec.unit.symbol}`;
}

function range(spec: InputSpec): string {
  const parts: string[] = [];
  if (Number.isFinite(spec.minimum))
    parts.push(`${spec.above ? 'above' : 'at least'} ${bound(spec.minimum, spec)}`);
  if (spec.maximum < Number.MAX_VALUE) parts.push(`at most ${bound(spec.maximum, spec)}`);
  return parts.join(' and ');
}

/** What an input takes, for messages: `a value above 0 mm and at most 10,000 mm for standoff`. */
function wantedOf(spec: InputSpec): string {
  const kind = spec.integer ? 'a whole number' : 'a value';
  return `${kind} ${range(spec)} for ${shortPath(spec.path)}`;
}

/** The value as written, and what it is where that is not plain to see: `1500` for a length is 1,500,000 mm. */
function foundOf(si: number, spec: InputSpec, written: string): string {
  const isPlain = /^\s*[-+]?[\d.]+(e[-+]?\d+)?\s*$/i.test(written);
  if (!isPlain || spec.unit.symbol === '' || !Number.isFinite(si)) return quote(written);
  return `${quote(written)}, which is ${bound(si, spec)}`;
}

/** Checks an SI value against what the input takes; `written` is how it was given. */
export function checkRange(si: number, spec: InputSpec, written: string): Outcome<number> {
  const tooLow = spec.above ? si <= spec.minimum : si < spec.minimum;
  if (tooLow || si > spec.maximum || (spec.integer && !Number.isInteger(si)) || Number.isNaN(si)) {
    return flawed('out-of-range', foundOf(si, spec, written), wantedOf(spec));
  }
  return { ok: true, value: si };
}

/** The letters that IEC 60085 gives beside the numbers, degC (from memory; 90 and 130 seen quoted at second hand). */
const CLASS_LETTERS: Readonly<Record<string, number>> = {
  Y: 90,
  A: 105,
  E: 120,
  B: 130,
  F: 155,
  H: 180,
  N: 200,
  R: 220,
};

function thermalClass(letter: string, written: string): Outcome<Measure> {
  const value = CLASS_LETTERS[letter.toUpperCase()];
  if (value !== undefined) return { ok: true, value: { value, ...plainScale(UNITS.degC) } };
  return flawed(
    'unknown-class',
    quote(written),
    `a class such as 130 degC, or its letter: ${Object.keys(CLASS_LETTERS).join(', ')}`,
  );
}

/** A value as written, before its range is known to be right: the unit matters to ranges of values. */
export function readMeasure(spec: InputSpec, written: number | string): Outcome<Measure> {
  if (typeof written === 'number') {
    return { ok: true, value: { value: written, ...plainScale(spec.unit) } };
  }
  if (spec.slot === SLOT.wire && /^\s*awg/i.test(written)) {
    const gauge = parseAwg(written);
    if (gauge === null) {
      return flawed('not-a-gauge', quote(written), `a gauge from AWG 4/0 to AWG ${AWG_RANGE.thinnest}`);
    }
    return { ok: true, value: { value: awgDiameter(gauge), factor: 1, offset: 0 } };
  }
  const letter =
    spec.slot === SLOT.thermalClass ? /^\s*(?:class\s+)?([a-z])\s*$/i.exec(written)?.[1] : undefined;
  if (letter !== undefined) return thermalClass(letter, written);
  if (isThickness(spec) && written.trim() === THICK) {
    return { ok: true, value: { value: Number.POSITIVE_INFINITY, factor: 1, offset: 0 } };
  }
  const measure = parseMeasure(written, spec.unit);
  if (measure.ok || measure.flaw.code !== 'not-a-measure') return measure;
  return { ok: false, flaw: { ...measure.flaw, wanted: exampleOf(spec) } };
}

/** The SI value of an input: a plain number in SI (temperatures in degC), or a text with its unit. */
export function readInput(spec: InputSpec, written: number | string): Outcome<number> {
  const measure = readMeasure(spec, written);
  if (!measure.ok) return measure;
  return checkRange(toSI(measure.value.value, measure.value), spec, String(written));
}

/** How such a value is written, for messages. */
export function exampleOf(spec: InputSpec): string {
  if (spec.unit === UNITS.one) return spec.integer ? 'a whole number' : 'a plain number';
  if (spec.slot === SLOT.wire) return 'a bare diameter such as 2 mm, or AWG 12';
  return isThickness(spec) ? `a length such as 8 mm, or ${THICK}` : kindOf(spec.unit);
}
