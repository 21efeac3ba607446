import { setImmediate } from 'node:timers/promises';
import { REASON, REASONS } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import type { Plan } from '../plan/plan.ts';
import { createGeometryCheck } from '../rig/geometry.ts';

/** Batches looked at before anything else (a signal) gets its turn. */
const STRIDE = 64;

/**
 * The REASON code that rules out most designs of a plan when geometry rules out all of them; null as soon as one
 * stands, when the plan wants rows first, or when the signal aborts. Uses the plan up: give it one of its own.
 */
export async function noPossibleDesign(task: Task, plan: Plan, signal: AbortSignal): Promise<number | null> {
  const check = createGeometryCheck(task);
  const counts = new Float64Array(REASONS.length);
  for (let n = 1; !plan.done; n++) {
    const batch = plan.next();
    if (!batch || 'from' in batch) return null;
    for (let i = 0; i < batch.count; i++) {
      const reason = check(batch, i);
      if (reason === REASON.none) return null;
      counts[reason]!++;
    }
    if (n % STRIDE === 0) {
      await setImmediate();
      if (signal.aborted) return null;
    }
  }
  return counts.indexOf(Math.max(...counts));
}
