import type { Objective } from '../../model/program.ts';
import { shortText } from '../../text/clean-text.ts';
import { headText } from '../../text/number-text.ts';
import { TEXT_SIZE } from './palette.ts';
import { textWidth } from './text-width.ts';

/** A label as people read it: a lone name of the study loses its underscores, an expression stays as it is. */
export function plainLabel(label: string): string {
  return shortText(/^\w+$/.test(label) ? label.replaceAll('_', ' ') : label, 48);
}

/** `coil mass (kg), less is better`. */
export function objectiveTitle(label: string, { unit, sense }: Objective): string {
  const better = sense === 'maximise' ? 'more is better' : 'less is better';
  return `${headText(plainLabel(label), unit)}, ${better}`;
}

/** Ends of an axis that holds the values with a little air; the same value throughout still gets a width. */
export function domainOf(
  values: readonly number[],
  air = 0.04,
  scale: 'linear' | 'log' = 'linear',
): [low: number, high: number] {
  const low = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (scale === 'log') return [low / 10 ** air, high * 10 ** air];
  const width = high - low || Math.abs(low) * 0.1 || 1;
  return [low - air * width, high + air * width];
}

/** Log where the values are positive, span two decades and crowd at the low end of a linear scale. */
export function scaleFor(values: readonly number[]): 'linear' | 'log' {
  const ascending = [...values].sort((a, b) => a - b);
  const low = ascending[0] ?? 0;
  const high = ascending.at(-1) ?? 0;
  if (!(low > 0) || high / low < 100) return 'linear';
  const middle = ascending[ascending.length >> 1]!;
  const offCentre = (on: (x: number) => number) =>
    Math.abs((on(middle) - on(low)) / (on(high) - on(low)) - 0.5);
  return offCentre(Math.log) < offCentre((x) => x) ? 'log' : 'linear';
}

/** Which labels of a named axis to write so that none touch, `step` px apart: every n-th, the last one always. */
export function labelled(labels: readonly string[], step: number, turned: boolean): readonly string[] {
  const room = turned ? LINE : Math.max(...labels.map((label) => textWidth(label, TEXT_SIZE.label))) + 6;
  const every = Math.max(1, Math.ceil(room / step));
  return labels.filter((_, i) => (labels.length - 1 - i) % every === 0);
}

/** Px between turned labels. */
const LINE = 15;
