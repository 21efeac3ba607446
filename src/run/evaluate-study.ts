import type { RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import type { DescentReport, Plan, Work } from '../plan/plan.ts';
import { type Evaluation, isolateDescent, isolateFault } from './isolate-fault.ts';
import type { Patience } from './patience.ts';
import { createPool, createQuarantine, type Pool } from './pool.ts';

export interface StudyRun {
  readonly plan: Pick<Plan, 'done' | 'next' | 'tell'>;
  readonly task: Task;
  /** Marks the parts that its rows go into. */
  readonly stamp: string;
  readonly threads: number;
  readonly signal: AbortSignal;
  /** What an earlier run has left of a piece of work, by its number in the plan, from 0; null where it left nothing. */
  readonly kept?: (number: number) => Promise<Done | null>;
  /**
   * Takes rows in design order, one batch at a time, with the report of a descent and whether they were kept; its
   * promise is waited for. An error it throws ends the run.
   */
  readonly onRows: (rows: RowBatch, report: DescentReport | null, kept: boolean) => Promise<void> | void;
  /** Hears the number of designs done so far, and whether the last were kept. */
  readonly onProgress?: (done: number, kept: boolean) => void;
  /** When to give up on a worker. */
  readonly patience: Patience;
  /** For tests: a worker other than the project's own. */
  readonly worker?: URL;
}

export interface RunOutcome {
  readonly interrupted: boolean;
  readonly designs: number;
  /** What broke off the first design whose evaluation threw; null when none did. */
  readonly fault: string | null;
}

/** Work that came back; `report` is a descent's. */
export interface Done {
  readonly rows: RowBatch;
  readonly report?: DescentReport | null;
}

/** Work handed out and not yet taken by `onRows`, per thread: bounds memory when designs outrun the tables. */
const AHEAD_PER_THREAD = 4;

/**
 * Evaluates every design of a plan on `threads` worker threads and delivers the rows in design order. An aborted
 * signal stops the threads at once and resolves as interrupted. Throws when the workers cannot be started.
 */
export async function evaluateStudy(run: StudyRun): Promise<RunOutcome> {
  const { plan, task, stamp, threads, signal, kept, onRows, onProgress, patience } = run;
  let designs = 0;
  let fault: string | null = null;
  const outcome = (): RunOutcome => ({ interrupted: signal.aborted, designs, fault });
  if (signal.aborted) return outcome();

  const pool = createPool({ task, stamp, threads, batchesPerThread: 2, patience, worker: run.worker });
  let quarantine: Pool | null = null;
  const stop = async () => {
    await Promise.all([pool.stop(), quarantine?.stop()]);
  };
  signal.addEventListener('abort', stop);
  // a thread that is still starting does not keep the process alive by itself
  const alive = setInterval(() => {}, 60_000);
  const evaluation: Evaluation = {
    task,
    pool,
    quarantine: () => {
      quarantine ??= createQuarantine({ task, stamp, patience, worker: run.worker });
      return quarantine;
    },
    stopped: () => signal.aborted,
    onFault: (message) => {
      fault ??= message;
    },
  };
  const ahead: Promise<Done & { kept: boolean }>[] = [];
  let handedOut = 0;
  const evaluated = async (work: Work): Promise<Done> =>
    'from' in work ? isolateDescent(work, evaluation) : { rows: await isolateFault(work, evaluation) };
  const doneBefore = async (number: number, work: Work) => {
    const before = await kept?.(number);
    return before ? { ...before, kept: true } : { ...(await evaluated(work)), kept: false };
  };
  const handOut = (work: Work) => {
    const done = doneBefore(handedOut++, work);
    // it is awaited when its turn comes; until then a rejection is nobody's yet
    done.catch(() => {});
    ahead.push(done);
  };
  try {
    // no designs: tells a worker that cannot be loaded at all from a design that breaks it
    await pool.evaluate({ first: 0, count: 0, values: new Float64Array(0) });
    while (!signal.aborted) {
      while (ahead.length < threads * AHEAD_PER_THREAD) {
        const work = plan.next();
        if (!work) break;
        handOut(work);
      }
      const head = ahead.shift();
      if (!head) {
        if (plan.done) break;
        throw new Error('the plan is not done and hands out nothing');
      }
      const { rows: found, report, kept: wasKept } = await head;
      // only now is it known how many rows the descents before this one have
      const rows = report ? { ...found, first: designs } : found;
      plan.tell(rows, report ?? undefined);
      await onRows(rows, report ?? null, wasKept);
      designs += rows.count;
      onProgress?.(designs, wasKept);
    }
  } catch (error) {
    if (!signal.aborted) throw error;
  } finally {
    clearInterval(alive);
    signal.removeEventListener('abort', stop);
    await stop();
  }
  return outcome();
}
