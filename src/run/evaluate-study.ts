import type { RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import type { DescentReport, Plan, Work } from '../plan/plan.ts';
import { type Evaluation, isolateDescent, isolateFault } from './isolate-fault.ts';
import { createPool, type Pool } from './pool.ts';

export interface StudyRun {
  readonly plan: Pick<Plan, 'done' | 'next' | 'tell'>;
  readonly task: Task;
  readonly threads: number;
  readonly signal: AbortSignal;
  /**
   * Takes rows in design order, one batch at a time, with the report of a descent; its promise is waited for. An error
   * it throws ends the run.
   */
  readonly onRows: (rows: RowBatch, report: DescentReport | null) => Promise<void> | void;
  /** Hears the number of designs done so far. */
  readonly onProgress?: (done: number) => void;
  /** For tests: a worker other than the project's own. */
  readonly worker?: URL;
}

export interface RunOutcome {
  readonly interrupted: boolean;
  readonly designs: number;
  /** What broke off the first design whose evaluation threw; null when none did. */
  readonly fault: string | null;
}

/** Work that came back. */
interface Done {
  readonly rows: RowBatch;
  readonly report?: DescentReport;
}

/** Work handed out and not yet taken by `onRows`, per thread: bounds memory when designs outrun the tables. */
const AHEAD_PER_THREAD = 4;

/**
 * Evaluates every design of a plan on `threads` worker threads and delivers the rows in design order. An aborted
 * signal stops the threads at once and resolves as interrupted. Throws when the workers cannot be started.
 */
export async function evaluateStudy(run: StudyRun): Promise<RunOutcome> {
  const { plan, task, threads, signal, onRows, onProgress } = run;
  let designs = 0;
  let fault: string | null = null;
  const outcome = (): RunOutcome => ({ interrupted: signal.aborted, designs, fault });
  if (signal.aborted) return outcome();

  const pool = createPool({ task, threads, batchesPerThread: 2, worker: run.worker });
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
      quarantine ??= createPool({ task, threads: 1, batchesPerThread: 1, worker: run.worker });
      return quarantine;
    },
    stopped: () => signal.aborted,
    onFault: (message) => {
      fault ??= message;
    },
  };
  const ahead: Promise<Done>[] = [];
  const handOut = (work: Work) => {
    const done: Promise<Done> =
      'from' in work
        ? isolateDescent(work, evaluation)
        : isolateFault(work, evaluation).then((rows) => ({ rows }));
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
      const { rows: found, report } = await head;
      // only now is it known how many rows the descents before this one have
      const rows = report ? { ...found, first: designs } : found;
      plan.tell(rows, report);
      await onRows(rows, report ?? null);
      designs += rows.count;
      onProgress?.(designs);
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
