import { toUnit } from '../model/units.ts';
import { shortText } from '../text/clean-text.ts';
import { headText, numberText } from '../text/number-text.ts';
import type { FrontAxis } from './designs-front.ts';

/** Where the cells of a column stand along an axis. */
export interface AxisScale {
  readonly title: string;
  /** Of a row, 0 at the low end and 1 at the high one; NaN where the cell is empty. */
  share(row: number): number;
  readonly ticks: readonly { readonly share: number; readonly text: string }[];
}

/** Letters of a word beside an axis. */
const LONGEST = 10;
/** About so many numbers stand along an axis. */
const TICKS = 5;
const STEPS = [1, 2, 2.5, 5, 10];

/** @param rows that it has room for; left out: all */
export function axisScale({ label, unit, cells, words }: FrontAxis, rows: readonly number[] = []): AxisScale {
  const own = rows.map((row) => cells[row]!).filter(Number.isFinite);
  const known = (own.length > 0 ? own : [...cells].filter(Number.isFinite)).map((cell) => toUnit(cell, unit));
  const low = Math.min(...known);
  const high = Math.max(...known);
  // a column of one number stands in the middle
  const shareOf = (value: number) => (high > low ? (value - low) / (high - low) : 0.5);
  return {
    title: headText(label, unit),
    share: (row) => (Number.isFinite(cells[row]!) ? shareOf(toUnit(cells[row]!, unit)) : Number.NaN),
    ticks: words
      ? words
          .map((text, level) => ({ share: shareOf(level), text: shortText(text, LONGEST) }))
          .filter(({ share }) => share >= 0 && share <= 1)
      : roundTicks(low, high).map((value) => ({ share: shareOf(value), text: numberText(value) })),
  };
}

function roundTicks(low: number, high: number): number[] {
  if (!(high > low)) return Number.isFinite(low) ? [low] : [];
  const power = 10 ** Math.floor(Math.log10((high - low) / TICKS));
  const step = STEPS.find((each) => (high - low) / (each * power) <= TICKS)! * power;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(6)));
}
