import type { TableRows } from '../model/rows.ts';
import { STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { type AtomicFile, openAtomicFile, writeAtomically } from './atomic-file.ts';
import { createCsvText } from './csv-text.ts';
import { csvwMetadata } from './csvw-metadata.ts';
import { collectFront } from './front-rows.ts';
import { createParquetFile } from './parquet-bytes.ts';
import { RESULT_FILES } from './result-files.ts';
import type { RunCounts } from './run-record.ts';
import type { TableChunk } from './table-chunk.ts';
import { columnsInCurrency, writeOwnFront } from './write-front.ts';

export interface TableRequest {
  readonly study: Study;
  /** Whether they will have a hundred megabytes or more. */
  readonly large: boolean;
  /** All rows in design order, gone through once; what it holds at a time is all that is in memory. */
  readonly chunks: Iterable<TableChunk> | AsyncIterable<TableChunk>;
  /** How many rows are on the front. */
  readonly front: number;
  /** Whether to write `designs.csv` and its metadata, too: the chunks then hold its lines. */
  readonly csv: boolean;
  /** Of a study that descends, the id of the first row of each start, ascending. */
  readonly startRows: Float64Array | null;
}

export interface WrittenTables {
  readonly counts: RunCounts;
  /** The rows of `front.csv`, in its order. */
  readonly front: TableRows;
}

/**
 * Writes the tables of a result. They appear together at the end, each whole; when anything throws (a
 * FolderError for the file system, or whatever `chunks` throws), none of the large ones does.
 */
export async function writeTables(folder: string, request: TableRequest): Promise<WrittenTables> {
  const { study, large, front, csv, startRows } = request;
  const columns = columnsInCurrency(study, startRows);
  const csvText = createCsvText(columns);
  const parquet = createParquetFile(study, columns);
  const frontRows = collectFront(study, front);
  const tally = createTally();
  const open: AtomicFile[] = [];
  try {
    const parquetFile = await openAtomicFile(folder, RESULT_FILES.parquet, large);
    open.push(parquetFile);
    const csvFile = csv ? await openAtomicFile(folder, RESULT_FILES.csv, large) : null;
    if (csvFile) open.push(csvFile);

    await csvFile?.write(csvText.header);
    await parquetFile.write(parquet.head);
    for await (const chunk of request.chunks) {
      tally.add(chunk);
      frontRows.add(chunk.front);
      for (const bytes of parquet.add(chunk.parquet)) await parquetFile.write(bytes);
      if (chunk.csv) await csvFile?.write(chunk.csv);
    }
    for (const bytes of parquet.end()) await parquetFile.write(bytes);

    const sorted = frontRows.sorted();
    if (csv) await writeAtomically(folder, RESULT_FILES.metadata, csvwMetadata(study, columns));
    // a study that seeks nothing has no front
    if (study.objectives.length > 0) await writeOwnFront(folder, study, sorted, startRows);
    for (const file of open) await file.commit();
    return { counts: tally.counts(sorted.count), front: sorted };
  } finally {
    for (const file of open) await file.abandon();
  }
}

function createTally(): { add(chunk: TableChunk): void; counts(front: number): RunCounts } {
  let designs = 0;
  let feasible = 0;
  const statuses = new Float64Array(STATUSES.length);
  return {
    add(chunk) {
      if (chunk.first !== designs) {
        throw new Error(`rows out of order: design ${chunk.first} came where ${designs} was due`);
      }
      designs += chunk.count;
      feasible += chunk.feasible;
      chunk.statuses.forEach((count, status) => {
        statuses[status]! += count;
      });
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
