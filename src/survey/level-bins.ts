import type { Varied, VariedNumber } from '../model/study.ts';
import { inputToUnit } from '../model/units.ts';
import { shortText } from '../text/clean-text.ts';
import { numberText } from '../text/number-text.ts';

/** The values of one varied input, sorted into few enough bins to draw. */
export interface Bins {
  /** Each bin one level, or a range of values. */
  readonly kind: 'levels' | 'ranges';
  /** How an axis places the bins: side by side by name, or by position. */
  readonly scale: 'named' | 'linear' | 'log';
  readonly labels: readonly string[];
  /** In the input's unit: the level, or the middle of the range. Empty for a named scale. */
  readonly positions: readonly number[];
  /** Bin of a value as designs carry it. */
  of(value: number): number;
}

/** More levels than this are drawn as ranges. */
const MOST_LEVELS = 40;
const RANGES = 20;

export function binsOf(varied: Varied): Bins {
  if (varied.kind === 'choice') {
    return {
      kind: 'levels',
      scale: 'named',
      labels: distinct(varied.levels.map(({ label }) => shortText(label, 24))),
      positions: [],
      of: (level) => level,
    };
  }
  const levels = valuesOf(varied);
  return levels === null ? ranges(varied) : levelled(varied, levels);
}

/** Ascending; null where there are too many to list. */
function valuesOf({ levels, between, integer }: VariedNumber): number[] | null {
  if (levels.length > MOST_LEVELS) return null;
  const ascending = Array.from(levels).sort((a, b) => a - b);
  if (between === undefined) return ascending;
  const low = ascending[0]!;
  const high = ascending.at(-1)!;
  if (!integer || high - low >= MOST_LEVELS) return null;
  return Array.from({ length: high - low + 1 }, (_, i) => low + i);
}

function levelled({ unit }: VariedNumber, levels: readonly number[]): Bins {
  const index = new Map(levels.map((si, i) => [si, i]));
  const positions = levels.map((si) => inputToUnit(si, unit));
  const labels = positions.map((value) => (value === Number.POSITIVE_INFINITY ? 'thick' : numberText(value)));
  // a half-space has no place on a scale
  const scale = positions.every(Number.isFinite) ? scaleOf(positions) : 'named';
  return {
    kind: 'levels',
    scale,
    labels: distinct(labels),
    positions: scale === 'named' ? [] : positions,
    of: (si) => index.get(si) ?? nearest(levels, si),
  };
}

function ranges({ levels, between, unit }: VariedNumber): Bins {
  const ascending = levels.filter(Number.isFinite).sort();
  const low = ascending[0]!;
  const high = ascending.at(-1)!;
  const scale = between ?? scaleOf(ascending);
  const on = scale === 'log' ? Math.log : (x: number) => x;
  const back = scale === 'log' ? Math.exp : (x: number) => x;
  const from = on(low);
  const width = (on(high) - from) / RANGES;
  const edge = (i: number) => inputToUnit(back(from + i * width), unit);
  return {
    kind: 'ranges',
    scale,
    labels: Array.from({ length: RANGES }, (_, i) => `${numberText(edge(i))} to ${numberText(edge(i + 1))}`),
    positions: Array.from({ length: RANGES }, (_, i) => edge(i + 0.5)),
    of: (si) => Math.max(0, Math.min(RANGES - 1, Math.floor((on(si) - from) / width))),
  };
}

/** Spans a decade, and its middle lies nearer the geometric than the arithmetic mean. */
function scaleOf(ascending: ArrayLike<number>): 'linear' | 'log' {
  const low = ascending[0]!;
  const high = ascending[ascending.length - 1]!;
  if (!(low > 0) || high / low < 10) return 'linear';
  const middle = ascending[ascending.length >> 1]!;
  const isGeometric = Math.abs(middle - Math.sqrt(low * high)) < Math.abs(middle - (low + high) / 2);
  return isGeometric ? 'log' : 'linear';
}

function nearest(levels: readonly number[], si: number): number {
  let best = 0;
  levels.forEach((level, i) => {
    if (Math.abs(level - si) < Math.abs(levels[best]! - si)) best = i;
  });
  return best;
}

/** Two long names may be cut to one. */
function distinct(labels: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return labels.map((label) => {
    const times = (seen.get(label) ?? 0) + 1;
    seen.set(label, times);
    return times === 1 ? label : `${label} (${times})`;
  });
}
