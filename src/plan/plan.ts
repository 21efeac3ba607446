import type { DesignBatch, RowBatch } from '../model/rows.ts';

/**
 * Rows so far -> the next batch of designs, or done. One interface for every plan.
 *
 * Batches are numbered by their first design and fixed by the study alone: not by the number of threads, nor by how
 * fast rows come back. Whoever runs a plan tells it the rows in design order, each once; a plan that learns from rows
 * hands out nothing until it has been told all that its next batch depends on.
 */
export interface Plan {
  /** How many designs there will be; null while only the rows can tell. */
  readonly total: number | null;
  /** Nothing more to hand out, whatever rows are told. */
  readonly done: boolean;
  /** The next batch, its arrays the caller's own; null when done or when rows must be told first. */
  next(): DesignBatch | null;
  tell(rows: RowBatch): void;
  /** At most `count` designs spread over the whole plan, to judge it by before it runs; their row ids mean nothing. */
  sample(count: number): DesignBatch;
}
