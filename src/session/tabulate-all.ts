import type { Study } from '../model/study.ts';
import type { Progress } from '../run/progress.ts';
import { FolderError } from '../store/folder-error.ts';
import type { PartName } from '../store/part-name.ts';
import { covering } from '../store/parts.ts';
import type { TableChunk } from '../store/table-chunk.ts';
import { CHUNK_ROWS } from '../store/table-cuts.ts';
import { type ChunkRequest, createTabulator, type TableSource } from '../store/tabulator.ts';
import { type WrittenTables, writeTables } from '../store/write-tables.ts';

export interface Tables {
  /** The result folder, and the mark of its parts. */
  readonly folder: string;
  readonly stamp: string;
  readonly parts: readonly PartName[];
  readonly study: Study;
  readonly designs: number;
  /** Ids of the front, ascending. */
  readonly front: Float64Array;
  /** Of a study that descends, the id of the first row of each start, ascending. */
  readonly startRows: Float64Array | null;
  readonly csv: boolean;
  readonly threads: number;
  readonly progress: (total: number) => Progress;
}

/** Writes the tables of a result from its parts; null, and no tables, when the signal aborts before they stand. */
export async function tabulateAll(tables: Tables, signal: AbortSignal): Promise<WrittenTables | null> {
  const { folder, study, designs, front, csv, startRows } = tables;
  const progress = tables.progress(tables.designs);
  try {
    const chunks = chunksOf(tables, signal, progress);
    return await writeTables(folder, {
      study,
      large: designs >= MANY,
      chunks,
      front: front.length,
      csv,
      startRows,
    });
  } catch (error) {
    if (signal.aborted) return null;
    throw error;
  } finally {
    progress.stop();
  }
}

async function* chunksOf(
  tables: Tables,
  signal: AbortSignal,
  progress: Progress,
): AsyncGenerator<TableChunk> {
  const { folder, stamp, study, csv, threads, startRows } = tables;
  const source = { folder, stamp, csv, shape: { ...study, startRows } };
  const requests = requestsOf(tables);
  const chunks = Math.max(1, Math.ceil(tables.designs / CHUNK_ROWS));
  const replies =
    tables.designs <= FEW
      ? tabulateHere(source, requests)
      : (await import('../run/tabulate.ts')).tabulate({
          ...{ ...source, requests, signal },
          threads: Math.min(threads, chunks),
        });
  for await (const reply of replies) {
    if ('damaged' in reply) {
      throw new FolderError('DAMAGED', folder, `a part of ${folder} cannot be used: ${reply.damaged}`);
    }
    yield reply;
    progress.update(reply.first + reply.count);
  }
}

/** Rows of 100 MB of CSV. */
const MANY = 100_000;

/** Their tables take less time than a thread takes to start. */
const FEW = 500;

async function* tabulateHere(source: TableSource, requests: Iterable<ChunkRequest>) {
  const tabulate = createTabulator(source);
  for (const request of requests) yield tabulate(request);
}

function* requestsOf({ folder, parts, designs, front }: Tables): Generator<ChunkRequest> {
  let at = 0;
  for (let first = 0; first < designs; first += CHUNK_ROWS) {
    const count = Math.min(CHUNK_ROWS, designs - first);
    const from = at;
    while (at < front.length && front[at]! < first + count) at++;
    yield { first, count, parts: covering(folder, parts, first, count), front: front.slice(from, at) };
  }
}
