import { type Measure, parseMeasure, toSI } from '../expression/measure.ts';
import { flawed } from '../expression/outcome.ts';
import type { InputSpec } from '../model/inputs.ts';
import { roundDigits } from '../model/round-digits.ts';
import { grouped } from '../text/grouped.ts';
import { checkRange, readMeasure } from './input-value.ts';
import type { Levels } from './levels.ts';
import type { RangeShape } from './schema.ts';
import { seriesLevels } from './series-range.ts';

/** More values of one key than this are a mistake, and would not fit the memory. */
export const MAX_LEVELS = 1_000_000;
/** Steps are counted with this tolerance, so that 0.1 to 0.5 in steps of 0.1 has its last value. */
const STEP_TOLERANCE = 1e-9;
/** Digits of a level in the unit it was written in: 1.3 mm, not 1.3000000000000003 mm. */
const DIGITS = 12;

type Part = keyof RangeShape;

function refuse(part: Part | null, ...args: Parameters<typeof flawed>): Levels {
  return { ok: false, flaw: flawed(...args).flaw, part };
}

function tidy(value: number): number {
  return roundDigits(value, DIGITS);
}

/** `value` of one measure in the unit of another. */
function inUnitOf(measure: Measure, unit: Measure): number {
  if (measure.factor === unit.factor && measure.offset === unit.offset) return measure.value;
  return toSI(measure.value, measure) / unit.factor - unit.offset;
}

/**
 * The values of a range, SI, in order. They are spaced in the unit that `from` is written in. With `open`, for a
 * search, a range without step and count is its two ends and all between them.
 */
export function levelsOf(spec: InputSpec, range: RangeShape, open: boolean): Levels {
  if (range.series !== undefined) return seriesLevels(spec, range);
  const ends: Measure[] = [];
  for (const part of ['from', 'to'] as const) {
    // the shape of a range without a series has both
    const measure = readMeasure(spec, range[part]!);
    if (!measure.ok) return { ok: false, flaw: measure.flaw, part };
    if (!Number.isFinite(measure.value.value) || /awg/i.test(String(range[part]))) {
      return refuse(
        part,
        'range-end',
        `\`${range[part]}\` in a range`,
        'a number with a unit; gauges and thick go in a list',
      );
    }
    const within = checkRange(
      toSI(measure.value.value, measure.value),
      { ...spec, integer: false },
      String(range[part]),
    );
    if (!within.ok) return { ok: false, flaw: within.flaw, part };
    ends.push(measure.value);
  }
  const unit = ends[0]!;
  const from = unit.value;
  const to = inUnitOf(ends[1]!, unit);
  if (from === to)
    return refuse('to', 'range-end', 'a range from a value to itself', 'two different ends, or a list');
  if (open && range.step === undefined && range.count === undefined)
    return between(spec, range, unit, from, to);
  const spaced = range.step === undefined ? counted(range, from, to) : stepped(spec, range, unit, from, to);
  if (!('count' in spaced)) return spaced;
  const levels = doublesForAll(spaced.count);
  for (let i = 0; i < levels.length; i++) {
    const value = i === 0 ? from : spaced.value(i);
    const si = toSI(value, unit);
    if (spec.integer && !Number.isInteger(si)) {
      const wanted = 'a step or count that keeps to whole numbers, or a list';
      return refuse(range.step === undefined ? 'count' : 'step', 'not-whole', `the value ${value}`, wanted);
    }
    levels[i] = si;
  }
  return { ok: true, levels };
}

/** Memory that every thread sees: a message with a million levels takes them along without a copy. */
function doublesForAll(count: number): Float64Array {
  return new Float64Array(new SharedArrayBuffer(count * Float64Array.BYTES_PER_ELEMENT));
}

function between(spec: InputSpec, range: RangeShape, unit: Measure, from: number, to: number): Levels {
  const { spacing = 'linear' } = range;
  if (spacing === 'log' && !(from > 0 && to > 0)) return logOfZero();
  const levels = [toSI(from, unit), toSI(to, unit)];
  const broken = spec.integer ? levels.findIndex((level) => !Number.isInteger(level)) : -1;
  if (broken >= 0) {
    const end = broken === 0 ? 'from' : 'to';
    return refuse(end, 'not-whole', `the value ${levels[broken]}`, 'a whole number');
  }
  return { ok: true, levels, between: spacing };
}

function logOfZero(): Levels {
  return refuse(
    'spacing',
    'log-of-zero',
    'log spacing over zero or negative values',
    'ends above zero, or linear spacing',
  );
}

/** How many values, and each but the first. */
type Spaced = Levels | { readonly count: number; readonly value: (i: number) => number };

function tooMany(part: Part, count: number): Levels {
  const found = `${grouped(count)} values`;
  return refuse(part, 'too-many-values', found, `at most ${grouped(MAX_LEVELS)} values of one key`);
}

function stepped(spec: InputSpec, range: RangeShape, unit: Measure, from: number, to: number): Spaced {
  if (range.count !== undefined || range.spacing !== undefined) {
    return refuse(
      range.count === undefined ? 'spacing' : 'count',
      'step-and-count',
      'a step and a count or spacing',
      'one of them',
    );
  }
  const written = range.step!;
  let step: number;
  if (typeof written === 'number') {
    step = written / unit.factor;
  } else {
    const measure = parseMeasure(written, spec.unit);
    if (!measure.ok) return { ok: false, flaw: measure.flaw, part: 'step' };
    // A step of a temperature is a difference: 5 K and 5 degC are the same, and the zero plays no part.
    const { value, factor } = measure.value;
    step = factor === unit.factor ? value : (value * factor) / unit.factor;
  }
  if (!Number.isFinite(step) || step === 0)
    return refuse('step', 'zero-step', 'a step of zero', 'a step from one value to the next');
  if (step > 0 !== to > from) {
    return refuse(
      'step',
      'step-away',
      'a step that leads away from `to`',
      `a ${to > from ? 'positive' : 'negative'} step`,
    );
  }
  const steps = Math.floor((to - from) / step + STEP_TOLERANCE);
  if (steps + 1 > MAX_LEVELS) return tooMany('step', steps + 1);
  if (steps < 1)
    return refuse('step', 'step-over', 'a step beyond the end of the range', 'a step that fits into it');
  const reaches = Math.abs((to - from) / step - steps) <= STEP_TOLERANCE;
  return {
    count: steps + 1,
    value: (i) => (i === steps && reaches ? to : tidy(from + i * step)),
  };
}

function counted(range: RangeShape, from: number, to: number): Spaced {
  const { count, spacing } = range;
  if (count === undefined)
    return refuse(
      null,
      'no-step',
      'a range without step and count',
      'step, or count (a search needs neither)',
    );
  if (!Number.isInteger(count) || count < 2)
    return refuse('count', 'count', `a count of ${count}`, 'a whole number of at least 2');
  if (count > MAX_LEVELS) return tooMany('count', count);
  if (spacing === 'log' && !(from > 0 && to > 0)) {
    return logOfZero();
  }
  const at = (fraction: number): number =>
    spacing === 'log' ? from * (to / from) ** fraction : from + (to - from) * fraction;
  return { count, value: (i) => (i === count - 1 ? to : tidy(at(i / (count - 1)))) };
}
