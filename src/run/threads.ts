import { setTimeout as pause } from 'node:timers/promises';
import type { Worker } from 'node:worker_threads';
import { Piscina } from 'piscina';
import { inlineForMany } from './inlining.ts';
import { compileAsUsual, compileLate } from './late-compiling.ts';
import { workerFile } from './worker-file.ts';
import { clearNurseriesAlone } from './young-generation.ts';

/** Worker threads that all run one module. The one place that starts and ends them. */
export interface Threads<Request, Reply> {
  /** Rejects when the thread threw or died, when the signal aborts (then the thread is replaced), and once stopped. */
  run(request: Request, options?: RunOptions): Promise<Reply>;
  /** Ends the threads, whatever they are at; may be called again. Resolves when they are gone. */
  stop(): Promise<void>;
}

export interface RunOptions {
  readonly transfer?: readonly ArrayBuffer[];
  readonly signal?: AbortSignal;
}

export interface ThreadsOptions {
  /** The module of each thread: its default export answers requests. */
  readonly module: URL;
  /** What each thread is born with. */
  readonly workerData: object;
  readonly threads: number;
  /** How many designs they will evaluate, where that is known. */
  readonly designs?: number;
  /** Requests that a thread takes at once. */
  readonly perThread: number;
  readonly limits: {
    readonly maxOldGenerationSizeMb?: number;
    readonly maxYoungGenerationSizeMb: number;
  };
}

/** What `load.cjs` finds in the data of its thread, beside the module's own. */
export interface LoadData {
  readonly module: string;
}

export const LOAD = workerFile('load.cjs');

/** A thread that has not loaded its module by then, ms, is ended all the same. */
const LOADING_MS = 1000;

/** Threads that evaluate so few designs are soon done with them; 0: nobody knows how many. */
const FEW = 20_000;
const isFew = (designs: number) => designs > 0 && designs <= FEW;

export function createThreads<Request, Reply>(options: ThreadsOptions): Threads<Request, Reply> {
  const { module, workerData, threads, perThread, limits } = options;
  clearNurseriesAlone();
  if (isFew(options.designs ?? 0)) compileLate();
  else compileAsUsual();
  inlineForMany(options.designs ?? 0, threads);
  const piscina = new Piscina<Request, Reply>({
    filename: LOAD.href,
    minThreads: threads,
    maxThreads: threads,
    concurrentTasksPerWorker: perThread,
    resourceLimits: limits,
    workerData: { ...workerData, module: module.href } satisfies LoadData,
  });
  /** Of each thread: resolves when it has loaded its module, which it reports, or is gone. */
  const loaded = new WeakMap<Worker, Promise<unknown>>();
  const watch = () => {
    for (const thread of piscina.threads) {
      if (loaded.has(thread)) continue;
      const settled = new Promise((resolve) => {
        thread.once('message', resolve).once('exit', resolve).once('error', resolve);
      });
      loaded.set(thread, settled);
    }
  };
  watch();
  // a thread that dies with nothing to do is replaced; what it was doing rejects by itself
  piscina.on('error', watch);
  let ended: Promise<void> | null = null;

  /** A thread is not cut off while it loads its module where that can be helped. */
  async function end(): Promise<void> {
    watch();
    const enough = new AbortController();
    await Promise.race([
      Promise.all(piscina.threads.map((thread) => loaded.get(thread))),
      pause(LOADING_MS, undefined, { signal: enough.signal }).catch(() => {}),
    ]);
    enough.abort();
    await piscina.destroy();
  }

  return {
    async run(request, { transfer = [], signal } = {}) {
      if (ended) throw new Error('stopped');
      try {
        return await piscina.run(request, { transferList: [...transfer], ...(signal && { signal }) });
      } finally {
        // one that was replaced
        watch();
      }
    },
    stop() {
      ended ??= end();
      return ended;
    },
  };
}
