import { type RowBatch, rowsIn, type Stretch, type TableRows } from '../model/rows.ts';
import { STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { tableColumns } from '../model/table-columns.ts';
import { createCsvText } from './csv-text.ts';
import { collectFront, markFront } from './front-rows.ts';
import { createParquetPages, type ParquetPages } from './parquet-pages.ts';
import { zstd } from './zstd.ts';

/** What the tables need to know of a study. Plain data. */
export type TableShape = Pick<Study, 'vary' | 'derive' | 'objectives' | 'keep' | 'requested'> & {
  /** Of a study that descends, the id of the first row of each start, ascending. */
  readonly startRows: Float64Array | null;
};

/** Consecutive rows as the tables hold them, with what the whole needs to know of them. Plain data. */
export interface TableChunk {
  readonly first: number;
  readonly count: number;
  /** Lines of the CSV, UTF-8; null where no CSV is wanted. */
  readonly csv: Uint8Array | null;
  readonly parquet: ParquetPages;
  /** Rows by status. */
  readonly statuses: Float64Array;
  readonly feasible: number;
  /** The rows that are on the front, in design order. */
  readonly front: TableRows;
}

/**
 * Makes chunks of rows that follow one another. `front` holds the ids of those of their rows that are on the front, ascending.
 * The bytes of a chunk are good until the next is made.
 */
export function createChunkMaker(
  shape: TableShape,
): (stretches: readonly Stretch<RowBatch>[], front: ArrayLike<number>, csv: boolean) => TableChunk {
  const columns = tableColumns(shape, shape.startRows);
  const csvText = createCsvText(columns);
  const parquetPages = createParquetPages(columns, zstd);
  return (stretches, front, csv) => {
    const marked = stretches.map(({ rows, from, to }) => ({ rows: markFront(rows, front), from, to }));
    const onFront = collectFront(shape, front.length);
    for (const { rows } of marked) onFront.add(rows);
    const [head] = stretches;
    return {
      first: head ? head.rows.first + head.from : 0,
      count: rowsIn(stretches),
      csv: csv ? csvText.linesOf(marked) : null,
      parquet: parquetPages(marked),
      statuses: countStatuses(stretches),
      feasible: countFeasible(stretches),
      front: onFront.inOrder(),
    };
  };
}

function countStatuses(stretches: readonly Stretch<RowBatch>[]): Float64Array {
  const statuses = new Float64Array(STATUSES.length);
  for (const { rows, from, to } of stretches) {
    for (let i = from; i < to; i++) statuses[rows.status[i]!]!++;
  }
  return statuses;
}

function countFeasible(stretches: readonly Stretch<RowBatch>[]): number {
  let sum = 0;
  for (const { rows, from, to } of stretches) {
    for (let i = from; i < to; i++) sum += rows.feasible[i]!;
  }
  return sum;
}
