import { SET } from '../model/cautions/caution-rule.ts';
import type { Judgement } from '../model/cautions/judge.ts';
import { toUnit, UNITS, type Unit } from '../model/units.ts';
import { roundTemperature } from './about-duration.ts';

/**
 * The words of cautions, the same on the terminal, on cards and in reports; each brings its own way to write a number.
 */
type Format = (si: number, unit: Unit) => string;

/** `345.7 °C; from 155 °C`, with further figures; empty for a yes or no. */
export function cautionNumbers(
  { rule, value, threshold, atLeast, figures }: Judgement,
  format: Format,
): string {
  const { unit, raisedWhen } = rule;
  const more = figures.map((each) => each.phrase.replace('#', () => format(each.value, each.unit)));
  if (isFlag(rule)) return more.join(', ');
  const found = `${atLeast ? 'at least ' : ''}${valueWords(value, unit, format)}`;
  return [found, ...more].join(', ').concat(`; ${boundWords(threshold, unit, raisedWhen, format)}`);
}

/** The value alone, as it stands beside a design's number; empty for a yes or no. */
export function cautionValue({ rule, value }: Judgement, format: Format): string {
  return isFlag(rule) ? '' : valueWords(value, rule.unit, format);
}

/** `from 50 V`, `below 2`; empty for a yes or no. */
export function cautionBound({ rule, threshold }: Judgement, format: Format): string {
  return isFlag(rule) ? '' : boundWords(threshold, rule.unit, rule.raisedWhen, format);
}

/** ``not judged: no `fuse` given (current of the fuse)`` */
export function notJudgedWords({
  missing,
  topics,
}: {
  readonly missing: string;
  readonly topics: readonly string[];
}): string {
  return `not judged: ${missing} (${topics.join(', ')})`;
}

function isFlag({ threshold }: Judgement['rule']): boolean {
  return threshold === SET;
}

/** A temperature without end is one of a winding that never settles. */
function valueWords(value: number, unit: Unit, format: Format): string {
  if (value === Number.POSITIVE_INFINITY) return 'never settles';
  // computed temperatures are no better than that
  if (unit === UNITS.degC) return `${roundTemperature(toUnit(value, unit))} °C`;
  return format(value, unit);
}

function boundWords(threshold: number, unit: Unit, raisedWhen: 'above' | 'below', format: Format): string {
  return `${raisedWhen === 'above' ? 'from' : 'below'} ${format(threshold, unit)}`;
}
