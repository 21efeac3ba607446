import type { RowBatch, TableRows } from '../model/rows.ts';
import { STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { tableColumns } from '../model/table-columns.ts';
import { type AtomicFile, openAtomicFile, writeAtomically } from './atomic-file.ts';
import { createCsvText } from './csv-text.ts';
import { csvwMetadata } from './csvw-metadata.ts';
import { collectFront, markFront } from './front-rows.ts';
import { createParquetBytes } from './parquet-bytes.ts';
import { RESULT_FILES } from './result-files.ts';
import type { RunCounts } from './run-record.ts';

export interface TableRequest {
  readonly study: Study;
  /** All rows in design order, gone through once; what it holds at a time is all that is in memory. */
  readonly batches: Iterable<RowBatch> | AsyncIterable<RowBatch>;
  /** Ids of the front, ascending. */
  readonly front: ArrayLike<number>;
  /** Whether to write `designs.csv` and its metadata, too. */
  readonly csv: boolean;
}

export interface WrittenTables {
  readonly counts: RunCounts;
  /** The rows of `front.csv`, in its order. */
  readonly front: TableRows;
}

/** CSV text is handed over in pieces of this many rows: about a megabyte. */
const CSV_ROWS = 2048;

/**
 * Writes the tables of a result. They appear together at the end, each whole; when anything throws (a
 * FolderError for the file system, or whatever `batches` throws), none of the large ones does.
 */
export async function writeTables(folder: string, request: TableRequest): Promise<WrittenTables> {
  const { study, front, csv } = request;
  const columns = tableColumns(study);
  const csvText = createCsvText(columns);
  const parquet = createParquetBytes(columns);
  const frontRows = collectFront(study, front.length);
  const tally = createTally();
  const open: AtomicFile[] = [];
  try {
    const parquetFile = await openAtomicFile(folder, RESULT_FILES.parquet);
    open.push(parquetFile);
    const csvFile = csv ? await openAtomicFile(folder, RESULT_FILES.csv) : null;
    if (csvFile) open.push(csvFile);

    await csvFile?.write(csvText.header);
    for await (const batch of request.batches) {
      tally.add(batch);
      const rows = markFront(batch, front);
      frontRows.add(rows);
      const bytes = parquet.add(rows);
      if (bytes.length > 0) await parquetFile.write(bytes);
      for (let from = 0; csvFile && from < rows.count; from += CSV_ROWS) {
        await csvFile.write(csvText.lines(rows, from, Math.min(rows.count, from + CSV_ROWS)));
      }
    }
    await parquetFile.write(parquet.end());

    const sorted = frontRows.sorted();
    if (csv) await writeAtomically(folder, RESULT_FILES.metadata, csvwMetadata(study, columns));
    await writeAtomically(
      folder,
      RESULT_FILES.front,
      csvText.header + csvText.lines(sorted, 0, sorted.count),
    );
    for (const file of open) await file.commit();
    return { counts: tally.counts(sorted.count), front: sorted };
  } finally {
    for (const file of open) await file.abandon();
  }
}

function createTally(): { add(batch: RowBatch): void; counts(front: number): RunCounts } {
  let designs = 0;
  let feasible = 0;
  const statuses = new Float64Array(STATUSES.length);
  return {
    add(batch) {
      if (batch.first !== designs) {
        throw new Error(`rows out of order: design ${batch.first} came where ${designs} was due`);
      }
      designs += batch.count;
      for (let i = 0; i < batch.count; i++) {
        statuses[batch.status[i]!]!++;
        feasible += batch.feasible[i]!;
      }
    },
    counts: (front) => ({
      designs,
      statuses: Object.fromEntries(
        STATUSES.map((status, code) => [status, statuses[code]!]),
      ) as RunCounts['statuses'],
      feasible,
      front,
    }),
  };
}
