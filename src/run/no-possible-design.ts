import { setImmediate } from 'node:timers/promises';
import { REASON, REASONS } from '../model/status.ts';
import type { Task, Varied } from '../model/study.ts';
import type { Plan } from '../plan/plan.ts';
import { createGeometryCheck } from '../rig/geometry.ts';

/** Batches looked at before anything else (a signal) gets its turn. */
const STRIDE = 64;
/** Designs all over the plan that are looked at before one after the other is: the first coils of a grid may be the small ones. */
const SPREAD = 4096;
/** No more designs are looked at, which takes a second or two: a run says of each why it is impossible. */
const MOST = 1_000_000;

/**
 * The REASON code that rules out most designs of a plan when geometry rules out all of them; null as soon as one
 * stands, when the plan wants rows first or goes on and on, or when the signal aborts. Uses the plan up: give it one of its own.
 */
export async function noPossibleDesign(task: Task, plan: Plan, signal: AbortSignal): Promise<number | null> {
  const check = createGeometryCheck(task);
  const counts = new Float64Array(REASONS.length);
  let looked = 0;
  for (let n = 1; !plan.done; n++) {
    const batch = plan.next();
    if (!batch || 'from' in batch || looked >= MOST) return null;
    for (let i = 0; i < batch.count; i++) {
      const reason = check(batch, i);
      if (reason === REASON.none) return null;
      counts[reason]!++;
    }
    looked += batch.count;
    if (n === 1 && !plan.done) {
      const sample = plan.sample(SPREAD);
      for (let i = 0; i < sample.count; i++) if (check(sample, i) === REASON.none) return null;
    }
    if (n % STRIDE === 0) {
      await setImmediate();
      if (signal.aborted) return null;
    }
  }
  return counts.indexOf(Math.max(...counts));
}

/** Whether a rig can be built does not hang on these. */
const APART = /^(drive|duty|guides|supply\.(?!frequency))\b/;

/** What varies in a grid, but of inputs that cannot make a design impossible the first level alone: the same reasons, in the same shares. */
export function builtOf(vary: readonly Varied[]): readonly Varied[] {
  return vary.map((varied): Varied => {
    if (!APART.test(varied.path)) return varied;
    return varied.kind === 'choice'
      ? { ...varied, levels: varied.levels.slice(0, 1) }
      : { ...varied, levels: varied.levels.subarray(0, 1) };
  });
}
