import type { DesignBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { createEvaluator } from '../rig/evaluate.ts';

/** Long enough for the code to be compiled, short enough not to be noticed. */
const TRIAL_MS = 80;
/** A clock of whole milliseconds tells a round of this length to a tenth. */
const ROUND_MS = 10;

/**
 * Seconds that one thread needs for one design, tried out on a sample: the fastest round of as many as fit in a
 * moment, since the first ones run before the code is compiled. `now` in ms.
 */
export function timePerDesign(task: Task, sample: DesignBatch, now: () => number): number {
  const evaluate = createEvaluator(task);
  const began = now();
  let fastest = Number.POSITIVE_INFINITY;
  let before = began;
  do {
    let after: number;
    let passes = 0;
    do {
      evaluate(sample);
      passes++;
      after = now();
    } while (after - before < ROUND_MS);
    fastest = Math.min(fastest, (after - before) / passes);
    before = after;
  } while (before - began < TRIAL_MS);
  return fastest / 1000 / sample.count;
}
