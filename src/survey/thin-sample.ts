import type { RowBatch } from '../model/rows.ts';

/** Designs picked for display: each with its objectives, SI. */
export interface ThinSample {
  /** Ids, ascending. */
  readonly designs: readonly number[];
  /** Objectives of each, in the study's order. */
  readonly objectives: readonly Float64Array[];
  /** What varies, of each. */
  readonly values: readonly Float64Array[];
  /** The limits that each misses, as RowBatch.unmet holds them. */
  readonly unmet: readonly number[];
  /** How many designs they stand for. */
  readonly of: number;
}

/** Collects, batch by batch, designs whose objectives all have a finite value. */
export interface Thinning {
  /** Of the feasible designs, or of the others. */
  add(batch: RowBatch, feasible: boolean): void;
  sample(): ThinSample;
}

interface Kept {
  readonly rank: number;
  readonly design: number;
  readonly objectives: Float64Array;
  readonly values: Float64Array;
  readonly unmet: number;
}

/**
 * Keeps at most `size` designs: those whose ids come first in a fixed, scrambled order. Which ones these are depends
 * on the designs alone, not on batches or threads, and follows no pattern of a grid as every n-th would.
 */
export function createThinning(size: number, objectives: number): Thinning {
  let kept: Kept[] = [];
  let highest = Number.POSITIVE_INFINITY;
  let of = 0;

  function trim(): void {
    kept.sort(byRank);
    kept.length = Math.min(kept.length, size);
    if (kept.length === size) highest = kept[size - 1]!.rank;
  }

  return {
    add(batch, feasible) {
      const wanted = feasible ? 1 : 0;
      const width = batch.values.length / batch.count;
      for (let row = 0; row < batch.count; row++) {
        if (batch.feasible[row] !== wanted || !hasValues(batch, row, objectives)) continue;
        of++;
        const design = batch.first + row;
        const rank = scrambled(design);
        if (rank > highest) continue;
        kept.push({
          rank,
          design,
          objectives: valuesOf(batch, row, objectives),
          values: batch.values.slice(row * width, (row + 1) * width),
          unmet: batch.unmet[row]!,
        });
        if (kept.length >= 2 * size) trim();
      }
    },
    sample() {
      trim();
      kept = kept.sort((a, b) => a.design - b.design);
      return {
        designs: kept.map(({ design }) => design),
        objectives: kept.map((each) => each.objectives),
        values: kept.map(({ values }) => values),
        unmet: kept.map(({ unmet }) => unmet),
        of,
      };
    },
  };
}

function hasValues({ objectives, count }: RowBatch, row: number, width: number): boolean {
  for (let o = 0; o < width; o++) if (!Number.isFinite(objectives[o * count + row]!)) return false;
  return true;
}

function valuesOf({ objectives, count }: RowBatch, row: number, width: number): Float64Array {
  const values = new Float64Array(width);
  for (let o = 0; o < width; o++) values[o] = objectives[o * count + row]!;
  return values;
}

function byRank(a: Kept, b: Kept): number {
  return a.rank - b.rank || a.design - b.design;
}

const SEED = 0x2545f491;

/**
 * The finaliser of MurmurHash3 (A. Appleby, public domain): a bijection of 32-bit numbers. Ids beyond 2^32 share ranks
 * with lower ones, which the order by id then separates.
 */
function scrambled(id: number): number {
  let h = (id ^ SEED) >>> 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
