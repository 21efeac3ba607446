import type { RowBatch, TableRows } from '../model/rows.ts';
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
 * Makes chunks. `front` holds the ids of those of their rows that are on the front, ascending. The bytes of a chunk are
 * good until the next is made.
 */
export function createChunkMaker(
  shape: TableShape,
): (batch: RowBatch, front: ArrayLike<number>, csv: boolean) => TableChunk {
  const columns = tableColumns(shape, shape.startRows);
  const csvText = createCsvText(columns);
  const parquetPages = createParquetPages(columns, zstd);
  return (batch, front, csv) => {
    const rows = markFront(batch, front);
    const onFront = collectFront(shape, front.length);
    onFront.add(rows);
    return {
      first: batch.first,
      count: batch.count,
      csv: csv ? csvText.lines(rows, 0, rows.count) : null,
      parquet: parquetPages(rows),
      statuses: countStatuses(batch),
      feasible: countFeasible(batch),
      front: onFront.inOrder(),
    };
  };
}

function countStatuses({ status, count }: RowBatch): Float64Array {
  const statuses = new Float64Array(STATUSES.length);
  for (let i = 0; i < count; i++) statuses[status[i]!]!++;
  return statuses;
}

function countFeasible({ feasible, count }: RowBatch): number {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += feasible[i]!;
  return sum;
}
