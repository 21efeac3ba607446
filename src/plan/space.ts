import { createLevelPlaces, isAscending } from '../model/level-places.ts';
import { roundDigits } from '../model/round-digits.ts';
import type { Varied, VariedNumber } from '../model/study.ts';
import { fromUnit, toUnit } from '../model/units.ts';

/**
 * One varied input as a search sees it: an interval from 0 to 1 and the rule by which a number u in it becomes a
 * value.
 *
 * - Levels (a choice, a list, a range with step or count): the interval falls into as many equal cells as there are
 *   levels, and u takes the level of its cell. Numbers stand in ascending order, whatever their order in the study, so
 *   that neighbouring cells hold neighbouring sizes; choices have no order, and nothing may be read into theirs.
 * - Whole numbers between two ends: u runs evenly, or in equal ratios, from half below the lower end to half above the
 *   upper end, and is rounded to the nearest. On the linear scale these are equal cells, too.
 * - Any number between two ends: u runs from the one to the other, evenly or in equal ratios, and the value is rounded
 *   to six digits in the unit of the tables, which is finer than anyone winds, cuts or measures; to more where a search
 *   resolves more (`digitsOf`). 0 and 1 give the ends exactly.
 *
 * A u outside the interval counts as its nearer end, so that no search leaves its bounds by however little.
 */
export interface Axis {
  readonly kind: 'choice' | 'ordered' | 'continuous';
  /** How many values it has; infinite for a continuous one. */
  readonly count: number;
  /** What a design carries: a number's SI value, a choice's level. */
  value(u: number): number;
  /** A u that gives the value: the middle of its cell. */
  unit(value: number): number;
  /** The value `steps` cells up or down from another; null beyond the ends. Not for a continuous axis. */
  neighbour(value: number, steps: number): number | null;
  /** How far apart, as u, the values about this u are. */
  cell(u: number): number;
}

/** What varies, as one axis each. */
export interface Space {
  readonly axes: readonly Axis[];
  /** How many designs it has; infinite when one axis is continuous. */
  readonly size: number;
}

/** Whole numbers and lists of at least so many values are as good as continuous. */
const FINE_GRAINED = 20;

/** Whether slopes and small steps mean something on an axis. */
export function nearlyContinuous({ kind, count }: Axis): boolean {
  return kind !== 'choice' && count >= FINE_GRAINED;
}

/** `resolution`: the share of a range that a search tells apart, where it has such a share. */
export function createSpace(vary: readonly Varied[], resolution = COARSEST): Space {
  const digits = digitsOf(resolution);
  const axes = vary.map((varied) => createAxis(varied, digits));
  return { axes, size: axes.reduce((size, { count }) => size * count, 1) };
}

/** Writes the design at a point of the unit cube to `into`, from `at` on. */
export function toDesign(space: Space, point: ArrayLike<number>, into: Float64Array, at = 0): void {
  space.axes.forEach((axis, a) => {
    into[at + a] = axis.value(point[a]!);
  });
}

/** A point of the unit cube that gives the design. */
export function toPoint(space: Space, design: ArrayLike<number>): Float64Array {
  return Float64Array.from(space.axes, (axis, a) => axis.unit(design[a]!));
}

/** The same text for the same design, and only for it: its bits, which are made into text sooner than digits. */
export function designKey(design: Float64Array): string {
  const halves = new Uint16Array(design.buffer, design.byteOffset, design.length * 4);
  return String.fromCharCode(...halves);
}

function createAxis(varied: Varied, digits: number): Axis {
  if (varied.kind === 'choice') {
    return levelled('choice', Float64Array.from(varied.levels.keys()));
  }
  if (varied.between === undefined) {
    const { levels } = varied;
    return levelled('ordered', isAscending(levels) ? levels : levels.slice().sort());
  }
  return varied.integer ? wholeNumbers(varied) : continuous(varied, digits);
}

function clamp(u: number): number {
  return Math.min(1, Math.max(0, u));
}

function levelled(kind: 'choice' | 'ordered', values: Float64Array): Axis {
  const count = values.length;
  const placeOf = createLevelPlaces(values);
  return {
    kind,
    count,
    value: (u) => values[Math.min(count - 1, Math.floor(clamp(u) * count))]!,
    unit: (value) => (placeOf(value) + 0.5) / count,
    neighbour: (value, steps) => values[placeOf(value) + steps] ?? null,
    cell: () => 1 / count,
  };
}

function ends({ levels }: VariedNumber): readonly [low: number, high: number] {
  return [
    levels.reduce((least, level) => Math.min(least, level)),
    levels.reduce((most, level) => Math.max(most, level)),
  ];
}

/** The scale on which an axis runs evenly, and the way back. */
const SCALES = {
  linear: { on: (x: number) => x, back: (x: number) => x },
  log: { on: Math.log, back: Math.exp },
};

function wholeNumbers(varied: VariedNumber): Axis {
  const [low, high] = ends(varied);
  const { on, back } = SCALES[varied.between!];
  const from = on(low - 0.5);
  const length = on(high + 0.5) - from;
  return {
    kind: 'ordered',
    count: high - low + 1,
    value: (u) => Math.min(high, Math.max(low, Math.round(back(from + clamp(u) * length)))),
    unit: (value) => (on(value) - from) / length,
    neighbour: (value, steps) => (value + steps < low || value + steps > high ? null : value + steps),
    cell: () => 1 / (high - low + 1),
  };
}

/** Digits of a continuous value: with six of them a share of a ten-thousandth of a range is some hundred steps. */
const DIGITS = 6;
const COARSEST = 1e-4;
/** Beyond these a double has nothing to add. */
const MOST_DIGITS = 15;

function digitsOf(resolution: number): number {
  const more = Math.ceil(Math.log10(COARSEST / resolution) - 1e-9);
  return Math.min(MOST_DIGITS, DIGITS + Math.max(0, more));
}

function continuous(varied: VariedNumber, digits: number): Axis {
  const [low, high] = ends(varied);
  const { on, back } = SCALES[varied.between!];
  const from = on(low);
  const length = on(high) - from;
  const rounded = (si: number) => fromUnit(roundDigits(toUnit(si, varied.unit), digits), varied.unit);
  return {
    kind: 'continuous',
    count: Number.POSITIVE_INFINITY,
    value(u) {
      if (!(u > 0)) return low;
      if (u >= 1) return high;
      return Math.min(high, Math.max(low, rounded(back(from + u * length))));
    },
    unit: (value) => (on(value) - from) / length,
    neighbour: () => null,
    cell(u) {
      const value = back(from + clamp(u) * length);
      const last = 10 ** (Math.floor(Math.log10(Math.abs(toUnit(value, varied.unit)) || 1)) + 1 - digits);
      return (
        Math.abs(on(value + fromUnit(last, varied.unit) - fromUnit(0, varied.unit)) - on(value)) / length
      );
    },
  };
}
