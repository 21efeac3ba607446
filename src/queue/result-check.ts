import { createRandom } from '../math/random.ts';
import type { RowBatch } from '../model/rows.ts';
import type { LocalThreads } from './local-threads.ts';
import type { Piece } from './piece.ts';
import { chooseRows, differenceOf, singleDesign } from './recompute.ts';
import type { Returned } from './result.ts';

/**
 * Of each piece of work a design or two are computed again here. Of pieces of fewer designs than this that is so of one
 * in so many designs, and always the first of a worker: generations of a search come in pieces of one or two, and computing each
 * again would leave nothing for the workers to gain. No piece of a grid is smaller.
 */
const CHECK_EVERY = 16;

/** Whose results are taken: those of workers whose rows, wherever they were computed again, came to the same. */
export class ResultCheck {
  /** Workers whose results are not taken any more, and why. */
  readonly excluded = new Map<string, string>();
  /** Of each worker how many results were taken. */
  private readonly taken = new Map<string, number>();
  private readonly local: LocalThreads;
  private readonly print: (line: string) => void;

  constructor(local: LocalThreads, print: (line: string) => void) {
    this.local = local;
    this.print = print;
  }

  /** Computes some designs again, or none; what differs, in words; null: nothing. */
  async differenceIn(piece: Piece, { worker, rows }: Returned, now: number): Promise<string | null> {
    const random = createRandom(Math.floor(now), piece.number);
    if (this.taken.has(worker) && random.unit() * CHECK_EVERY >= rows.count) return null;
    piece.checking = true;
    try {
      return await this.firstDifference(rows, chooseRows(rows, random));
    } finally {
      piece.checking = false;
    }
  }

  /** A result of this worker was taken. */
  count(worker: string): void {
    this.taken.set(worker, (this.taken.get(worker) ?? 0) + 1);
  }

  /** False where the worker is excluded already: several of its results may be computed again at once. */
  exclude(worker: string, why: string): boolean {
    if (this.excluded.has(worker)) return false;
    this.excluded.set(worker, why);
    this.print(
      `worker ${worker} computes something else than this machine: ${why}; its work is done again, and nothing more of it is taken${this.earlierOf(worker)}`,
    );
    return true;
  }

  private async firstDifference(rows: RowBatch, chosen: readonly number[]): Promise<string | null> {
    for (const index of chosen) {
      const here = await this.local.one.do(0, singleDesign(rows, index));
      const difference = differenceOf(rows, index, here.rows);
      if (difference !== null) return `row ${index} has ${difference}`;
    }
    return null;
  }

  /** What was taken before a worker was found out is in the tables, and in what a search did next. */
  private earlierOf(worker: string): string {
    const batches = this.taken.get(worker) ?? 0;
    if (batches === 0) return '';
    return `; ${batches} of its batches were taken before, each with a design or two that came to the same here: run once more with --fresh unless you know why they are right`;
  }
}
