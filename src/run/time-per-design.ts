import type { DesignBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { createEvaluator } from '../rig/evaluate.ts';

/** Long enough for the code to be compiled, short enough not to be noticed. */
const TRIAL_MS = 80;
/** Where others want the processor, too, it takes longer to see so many rounds, of which one is left alone. */
const ROUNDS = 10;
const LONGEST_TRIAL_MS = 500;
/** Short beside the turn that a busy processor gives to each; a clock of whole milliseconds still tells a fifth. */
const ROUND_MS = 5;

/**
 * Seconds that one thread needs for one design, tried out on a sample: the fastest round of as many as fit in a
 * moment, since the first ones run before the code is compiled. `now` in ms.
 */
export function timePerDesign(task: Task, sample: DesignBatch, now: () => number): number {
  const evaluate = createEvaluator(task);
  const began = now();
  let fastest = Number.POSITIVE_INFINITY;
  let before = began;
  const enough = (rounds: number) => before - began >= (rounds < ROUNDS ? LONGEST_TRIAL_MS : TRIAL_MS);
  for (let rounds = 0; !enough(rounds); rounds++) {
    let after: number;
    let passes = 0;
    do {
      evaluate(sample);
      passes++;
      after = now();
    } while (after - before < ROUND_MS);
    fastest = Math.min(fastest, (after - before) / passes);
    before = after;
  }
  return fastest / 1000 / sample.count;
}
