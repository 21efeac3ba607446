import type { DesignBatch } from '../model/rows.ts';
import type { Varied } from '../model/study.ts';
import { setDigits } from './mixed-radix.ts';
import { createOnePass } from './one-pass.ts';
import type { BatchPlan } from './plan.ts';

/**
 * Every combination of what varies, once; the first key of `vary` changes slowest. Learns nothing from rows.
 * `largest`: most designs of a batch.
 */
export function createGrid(vary: readonly Varied[], largest?: number): BatchPlan {
  const total = gridSize(vary);
  return createOnePass(
    {
      total,
      batch: (first, count) => ({ first, count, values: consecutive(vary, first, count) }),
      sample: (count) => evenSample(vary, total, count),
      design: (number) => consecutive(vary, number, 1),
    },
    largest,
  );
}

/** Number of combinations; exact up to 2^53. */
export function gridSize(vary: readonly Varied[]): number {
  return sizesOf(vary).reduce((product, size) => product * size, 1);
}

/** Designs `first` and on, as a grid's batches hold them; null where there are not so many. */
export function gridDesigns(vary: readonly Varied[], first: number, count: number): Float64Array | null {
  return first + count <= gridSize(vary) ? consecutive(vary, first, count) : null;
}

function sizesOf(vary: readonly Varied[]): number[] {
  return vary.map(({ levels }) => levels.length);
}

/** A number travels as its SI value, a choice as its level. */
function valueAt(varied: Varied, digit: number): number {
  return varied.kind === 'number' ? varied.levels[digit]! : digit;
}

function consecutive(vary: readonly Varied[], first: number, count: number): Float64Array {
  const width = vary.length;
  const values = new Float64Array(count * width);
  const digits = new Uint32Array(width);
  const sizes = sizesOf(vary);
  setDigits(sizes, first, digits);
  for (let i = 0; i < count; i++) {
    for (let v = 0; v < width; v++) values[i * width + v] = valueAt(vary[v]!, digits[v]!);
    for (let v = width - 1; v >= 0; v--) {
      digits[v]!++;
      if (digits[v]! < sizes[v]!) break;
      digits[v] = 0;
    }
  }
  return values;
}

/** The golden ratio's fractional part. Equal steps would meet an axis whose length divides them at one level only. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

function evenSample(vary: readonly Varied[], total: number, count: number): DesignBatch {
  const width = vary.length;
  const values = new Float64Array(count * width);
  const digits = new Uint32Array(width);
  const sizes = sizesOf(vary);
  for (let i = 0; i < count; i++) {
    const index = count === total ? i : Math.floor((((i + 1) * GOLDEN) % 1) * total);
    setDigits(sizes, index, digits);
    for (let v = 0; v < width; v++) values[i * width + v] = valueAt(vary[v]!, digits[v]!);
  }
  return { first: 0, count, values };
}
