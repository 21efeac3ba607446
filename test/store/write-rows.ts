import { joinBatches } from '../../src/model/row-batches.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { createChunkMaker, type TableChunk } from '../../src/store/table-chunk.ts';
import { CHUNK_ROWS } from '../../src/store/table-cuts.ts';
import { type WrittenTables, writeTables } from '../../src/store/write-tables.ts';

export interface Rows {
  readonly study: Study;
  readonly batches: Iterable<RowBatch>;
  /** Ids of the front, ascending. */
  readonly front: readonly number[];
  readonly csv: boolean;
}

/** Writes the tables of rows that are in memory, cut as they are on worker threads. */
export function writeRows(folder: string, { study, batches, front, csv }: Rows): Promise<WrittenTables> {
  return writeTables(folder, {
    study,
    large: false,
    chunks: chunksOf(study, batches, front, csv),
    front: front.length,
    csv,
    startRows: null,
  });
}

function* chunksOf(
  study: Study,
  batches: Iterable<RowBatch>,
  front: readonly number[],
  csv: boolean,
): Generator<TableChunk> {
  const makeChunk = createChunkMaker({ ...study, startRows: null });
  const all = [...batches];
  if (all.length === 0) return;
  const rows = joinBatches(all);
  for (let from = 0; from < rows.count; from += CHUNK_ROWS) {
    const to = Math.min(rows.count, from + CHUNK_ROWS);
    yield makeChunk(
      [{ rows, from, to }],
      front.filter((id) => id >= rows.first + from && id < rows.first + to),
      csv,
    );
  }
}
