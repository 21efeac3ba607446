import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import type { DesignBatch, RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import type { Descent } from '../plan/plan.ts';
import type { DescentReply, Reply, Request, WorkerData } from './messages.ts';

/** Worker threads that evaluate batches and run descents. The one place that knows how they are driven. */
export interface Pool {
  /** Rejects when the worker threw or died; the batch is still whole and may be sent again. */
  evaluate(batch: DesignBatch): Promise<RowBatch>;
  /** Rejects when the worker died; the descent may be sent again. */
  descend(descent: Descent): Promise<DescentReply>;
  /** Stops the threads, whatever they are at; what was asked of them rejects. Resolves when they are gone. */
  stop(): Promise<void>;
}

const EVALUATE = new URL('../../workers/evaluate.js', import.meta.url);

export function defaultThreads(): number {
  return availableParallelism();
}

export interface PoolOptions {
  readonly task: Task;
  readonly threads: number;
  /** Batches that a thread may hold at once. With two, the next lies ready while the main thread is busy. */
  readonly batchesPerThread: number;
  readonly worker: URL | undefined;
}

export function createPool({ task, threads, batchesPerThread, worker = EVALUATE }: PoolOptions): Pool {
  // a study is a task, too, but its text has no business in the workers
  const { rig, vary, derive, limits, objectives } = task;
  const workerData: WorkerData = { task: { rig, vary, derive, limits, objectives } };
  const piscina = new Piscina<Request, Reply | DescentReply>({
    filename: worker.href,
    minThreads: threads,
    maxThreads: threads,
    concurrentTasksPerWorker: batchesPerThread,
    workerData,
  });
  // a thread that dies with nothing to do is replaced; what it was doing rejects by itself
  piscina.on('error', () => {});
  return {
    evaluate(batch) {
      // the copy is moved, so that the batch survives a worker's death
      const values = batch.values.slice();
      return piscina.run({ ...batch, values }, { transferList: [values.buffer] }) as Promise<Reply>;
    },
    descend: (descent) => piscina.run(descent) as Promise<DescentReply>,
    stop: () => piscina.destroy(),
  };
}
