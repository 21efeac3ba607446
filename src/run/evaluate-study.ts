import type { RowBatch } from '../model/rows.ts';
import type { DescentReport, Plan, Work } from '../plan/plan.ts';
import type { Done, Workforce } from './workforce.ts';

export interface StudyRun {
  readonly plan: Pick<Plan, 'done' | 'next' | 'receive'>;
  /** Stopped at the end, whatever it is. */
  readonly workforce: Workforce;
  readonly signal: AbortSignal;
  /** What an earlier run has left of a piece of work, by its number in the plan, from 0; null where it left nothing. */
  readonly kept?: (number: number) => Promise<Done | null>;
  /**
   * Takes rows in design order, one piece of work at a time: its number, the report of a descent and whether they were kept; its
   * promise is waited for. An error it throws ends the run. Whoever takes them gives them back to the workforce.
   */
  readonly onRows: (
    number: number,
    rows: RowBatch,
    report: DescentReport | null,
    kept: boolean,
  ) => Promise<void> | void;
  /** The work to do, by number; the rest is left out. Only for a plan that learns nothing. Default: all. */
  readonly only?: (number: number) => boolean;
  /** Hears the number of designs done so far, and whether the last were kept. */
  readonly onProgress?: (done: number, kept: boolean) => void;
}

export interface RunOutcome {
  readonly interrupted: boolean;
  readonly designs: number;
  /** What broke off the first design whose evaluation threw; null when none did. */
  readonly fault: string | null;
}

/**
 * Evaluates every design of a plan and delivers the rows in design order. An aborted signal stops the workforce at once
 * and resolves as interrupted. Throws when the workforce cannot start.
 */
export async function evaluateStudy(run: StudyRun): Promise<RunOutcome> {
  const { plan, workforce, signal, kept, onRows, only, onProgress } = run;
  let designs = 0;
  const stop = () => workforce.stop();
  signal.addEventListener('abort', stop);
  // a thread that is still starting does not keep the process alive by itself
  const alive = setInterval(() => {}, 60_000);
  const ahead: Promise<Done & { number: number; kept: boolean }>[] = [];
  let next = 0;
  const doneBefore = async (number: number, work: Work) => {
    const before = await kept?.(number);
    return before
      ? { ...before, number, kept: true }
      : { ...(await workforce.do(number, work)), number, kept: false };
  };
  const handOut = (number: number, work: Work) => {
    const done = doneBefore(number, work);
    // it is awaited when its turn comes; until then a rejection is nobody's yet
    done.catch(() => {});
    ahead.push(done);
  };
  try {
    if (!signal.aborted) await workforce.ready();
    while (!signal.aborted) {
      while (ahead.length < workforce.ahead) {
        const work = plan.next();
        if (!work) break;
        const number = next++;
        if (only?.(number) ?? true) handOut(number, work);
      }
      const head = ahead.shift();
      if (!head) {
        if (plan.done) break;
        throw new Error('the plan is not done and hands out nothing');
      }
      const { number, rows: found, report, kept: wasKept } = await head;
      // only now is it known how many rows the descents before this one have
      const rows = report ? { ...found, first: designs } : found;
      plan.receive(rows, report ?? undefined);
      await onRows(number, rows, report ?? null, wasKept);
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
  return { interrupted: signal.aborted, designs, fault: workforce.fault };
}
