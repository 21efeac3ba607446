import type { DesignBatch, RowBatch } from '../model/rows.ts';
import { createFreeMemory } from '../model/shared-memory.ts';
import type { Task } from '../model/study.ts';
import type { Descent } from '../plan/plan.ts';
import type { DescentReply, Reply, Request, TrialReply, WorkerData } from './messages.ts';
import { createThreads } from './threads.ts';
import type { TimeLimit } from './time-limit.ts';
import { createTrialState, TRIAL, type Trial } from './time-per-design.ts';
import { workerFile } from './worker-file.ts';

/** Worker threads that evaluate batches and run descents. The one place that knows how they are driven. */
export interface Pool {
  /** Rejects when the worker threw or died; the batch is still whole and may be sent again. */
  evaluate(batch: DesignBatch): Promise<RowBatch>;
  /** Rejects when the worker died; the descent may be sent again. */
  descend(descent: Descent): Promise<DescentReply>;
  /** How long designs like these of a study take, as far as a moment shows. Rejects when the pool is stopped. */
  time(sample: DesignBatch, designs: number): Promise<Trial>;
  /** Takes rows that nobody looks at any more: their memory is used again. */
  giveBack(rows: RowBatch): void;
  /** Stops the threads, whatever they are at; what is pending rejects. Resolves when they are gone. */
  stop(): Promise<void>;
}

const EVALUATE = workerFile('evaluate.js');

export interface PoolOptions {
  readonly task: Task;
  /** As in WorkerData. */
  readonly stamp: string;
  readonly threads: number;
  /** How many there are to evaluate, where that is known. */
  readonly designs?: number;
  /** Batches that a thread may hold at once. With two, the next lies ready while the main thread is busy. */
  readonly batchesPerThread: number;
  readonly timeLimit: TimeLimit;
  readonly worker: URL | undefined;
}

/** A worker that needs more than this, MB, has lost its way: it dies alone, before it takes the process with it. */
const MEMORY_LIMIT = 384;
/** MB of a worker's young generation. */
const NURSERY = 8;

/** A trial that takes longer is broken off with its thread, ms: one design alone may take half a minute. */
const LONGEST_TRIAL_MS = 2000;
/** How often it is looked how far a trial is, ms. */
const LOOK_MS = 50;

/** Work that does not come back in time rejects, and its thread is replaced. */
export function createPool(options: PoolOptions): Pool {
  const { stamp, threads, batchesPerThread, timeLimit, worker = EVALUATE } = options;
  // a study is a task, too, but its text has no business in the workers
  const { rig, vary, derive, limits, objectives, tolerance, requested } = options.task;
  const task = {
    rig,
    vary,
    derive,
    limits,
    objectives,
    ...(tolerance && { tolerance }),
    ...(requested && { requested }),
  };
  const workerData: WorkerData = { task, stamp };
  const pool = createThreads<Request, Reply | DescentReply | TrialReply>({
    module: worker,
    workerData,
    threads,
    designs: options.designs ?? 0,
    perThread: batchesPerThread,
    // what a batch leaves behind is short-lived: a small nursery is as fast and holds the peak down
    limits: { maxOldGenerationSizeMb: MEMORY_LIMIT, maxYoungGenerationSizeMb: NURSERY },
  });

  async function request(
    request: Request,
    designs: number,
    transfer: ArrayBuffer[],
  ): Promise<Reply | DescentReply> {
    const giveUp = new AbortController();
    const limit = timeLimit.limit(designs);
    const timer = setTimeout(() => giveUp.abort(), limit);
    const note = timeLimit.start();
    try {
      const reply = await pool.run(request, { transfer, signal: giveUp.signal });
      note(designs);
      return reply as Reply | DescentReply;
    } catch (error) {
      if (!giveUp.signal.aborted) throw error;
      throw new Error(`no answer within ${Math.round(limit / 1000)} s`, { cause: error });
    } finally {
      clearTimeout(timer);
    }
  }

  const memory = createFreeMemory();
  return {
    async evaluate(batch) {
      // the copy is moved, so that the batch survives a worker's death
      const values = batch.values.slice();
      const place = memory.take();
      const rows = (await request({ ...batch, values, memory: place }, batch.count, [
        values.buffer,
      ])) as Reply;
      // a worker that has not used it
      if (!(rows.quantities.buffer instanceof SharedArrayBuffer)) memory.give(place);
      return rows;
    },
    async time(sample, designs) {
      const giveUp = new AbortController();
      const state = createTrialState();
      let looks = 0;
      const timer = setInterval(() => {
        // a thread that is still starting shows nothing of designs
        if (Atomics.load(state, TRIAL.begun) === 1 && ++looks * LOOK_MS >= LONGEST_TRIAL_MS) giveUp.abort();
      }, LOOK_MS);
      try {
        const reply = await pool.run({ sample, designs, state }, { signal: giveUp.signal });
        return { ...(reply as TrialReply), atLeast: false };
      } catch (error) {
        if (!giveUp.signal.aborted) throw error;
        const tried = Atomics.load(state, TRIAL.tried);
        return { seconds: LONGEST_TRIAL_MS / 1000 / (tried + 1), slowdown: 1, atLeast: true };
      } finally {
        clearInterval(timer);
      }
    },
    descend: (descent) => request(descent, descent.settings.evaluations, []) as Promise<DescentReply>,
    giveBack: ({ quantities }) => memory.give(quantities.buffer),
    stop() {
      memory.close();
      return pool.stop();
    },
  };
}

/** A pool of one thread, which is given no memory back. */
export type Quarantine = Omit<Pool, 'giveBack' | 'time'>;

/** One thread that takes one piece of work at a time: what goes wrong on it is the work's own fault. */
export function createQuarantine(options: Omit<PoolOptions, 'threads' | 'batchesPerThread'>): Quarantine {
  const pool = createPool({ ...options, threads: 1, batchesPerThread: 1 });
  let last: Promise<unknown> = Promise.resolve();
  const alone = <T>(act: () => Promise<T>): Promise<T> => {
    const mine = last.then(act);
    last = mine.catch(() => {});
    return mine;
  };
  return {
    evaluate: (batch) => alone(() => pool.evaluate(batch)),
    descend: (descent) => alone(() => pool.descend(descent)),
    stop: pool.stop,
  };
}
