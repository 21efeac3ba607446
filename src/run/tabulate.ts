import { createFreeMemory } from '../model/shared-memory.ts';
import type { TableChunk } from '../store/table-chunk.ts';
import type { ChunkRequest, TableSource } from '../store/tabulator.ts';
import { inOrder } from './in-order.ts';
import { createReaderPool, fewAheadOf } from './reader-pool.ts';

/** What a worker that makes tables is born with. */
export type TabulateData = TableSource;

/** To such a worker, with memory for the bytes of the answer; null where none is free. */
export interface TabulateTask extends ChunkRequest {
  readonly memory: SharedArrayBuffer | null;
}

/** Back: the rows as the tables hold them, or which part cannot be used and why. */
export type TabulateReply = TableChunk | { readonly damaged: string };

export interface Tabulation extends TabulateData {
  readonly requests: Iterable<ChunkRequest>;
  readonly threads: number;
  readonly signal: AbortSignal;
}

/**
 * Makes tables of the parts of a result, on worker threads, and yields them in the order of the requests. The bytes of one
 * are good until the next is taken.
 */
export async function* tabulate(tabulation: Tabulation): AsyncGenerator<TabulateReply> {
  const { folder, stamp, csv, requests, threads, signal } = tabulation;
  const { vary, derive, objectives, keep, requested, startRows } = tabulation.shape;
  const workerData: TabulateData = {
    folder,
    stamp,
    csv,
    shape: { vary, derive, objectives, keep, startRows, ...(requested && { requested }) },
  };
  const pool = createReaderPool<TabulateTask, TabulateReply>({
    worker: 'tabulate',
    workerData,
    threads,
  });
  const stop = () => void pool.stop();
  signal.addEventListener('abort', stop);
  try {
    const memory = createFreeMemory();
    const send = (request: ChunkRequest) => pool.request({ ...request, memory: memory.take() });
    for await (const reply of inOrder(requests, fewAheadOf(threads), send)) {
      yield reply;
      if (!('damaged' in reply)) memory.give(reply.parquet.bytes.buffer);
    }
  } finally {
    signal.removeEventListener('abort', stop);
    await pool.stop();
  }
}
