import { createThreads } from './threads.ts';
import { workerFile } from './worker-file.ts';

/** Worker threads that read parts of a result and make something of them. */
export interface ReaderPool<Request, Reply> {
  /** Rejects when the worker threw or died, and when the pool was stopped. */
  request(request: Request): Promise<Reply>;
  /** Stops the threads, whatever they are at. Resolves when they are gone. */
  stop(): Promise<void>;
}

export interface ReaderPoolOptions {
  /** Name of the file in workers/, without ending. */
  readonly worker: 'tabulate' | 'rejudge';
  /** What each worker is born with. */
  readonly workerData: object;
  readonly threads: number;
}

/** Requests that a thread works on at once: while one waits for the disk the other has the processor. */
const AT_ONCE = 2;
/** MB of a worker's young generation: what tables leave behind, arrays of a column and texts of numbers, is dead at once. */
const NURSERY = 16;

export function createReaderPool<Request, Reply>(options: ReaderPoolOptions): ReaderPool<Request, Reply> {
  const { run, stop } = createThreads<Request, Reply>({
    module: workerFile(`${options.worker}.js`),
    workerData: options.workerData,
    threads: options.threads,
    perThread: AT_ONCE,
    limits: { maxYoungGenerationSizeMb: NURSERY },
  });
  return { request: (request) => run(request), stop };
}

/** How many requests to have under way: the next lies ready while an answer is taken. */
export function aheadOf(threads: number): number {
  return threads * (AT_ONCE + 1);
}

/** The same where an answer is large: a million designs take 50 MB less, and no longer. */
export function fewAheadOf(threads: number): number {
  return threads * AT_ONCE;
}
