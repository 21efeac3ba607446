import type { DesignBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { createEvaluator } from '../rig/evaluate.ts';

/** Long enough for the code to be compiled, short enough not to be noticed. */
const TRIAL_MS = 80;

/**
 * Seconds that one thread needs for one design, tried out on a sample: the fastest of as many passes as fit in a
 * moment, since the first ones run before the code is compiled. `now` in ms.
 */
export function timePerDesign(task: Task, sample: DesignBatch, now: () => number): number {
  const evaluate = createEvaluator(task);
  const began = now();
  let fastest = Number.POSITIVE_INFINITY;
  let before = began;
  do {
    evaluate(sample);
    const after = now();
    fastest = Math.min(fastest, after - before);
    before = after;
  } while (before - began < TRIAL_MS);
  return fastest / 1000 / sample.count;
}
