import type { Study, Task } from '../model/study.ts';
import { guessCost, WIDE } from '../rig/design-cost.ts';
import type { Plan } from './plan.ts';

/**
 * What a thread costs before it is quick, in seconds of work by `guessCost`, which guesses a plain design twice as long as one
 * takes: 0.1 s to start, a second of V8's compiler, which compiles every law anew for each thread, and half a second of laws
 * that are not compiled yet. A thread with less work than that takes more processor time than it shares out.
 */
const WORTH = 2;
/** Designs by which it is known how slow they are. */
const SAMPLE = 48;

/**
 * How many of `most` threads a part of a plan, one of `shares`, is worth: more than one only where each has enough to do, as
 * far as inputs show. A function of the study alone.
 */
export function threadsWorth(
  study: Pick<Study, keyof Task>,
  plan: Pick<Plan, 'atMost' | 'atOnce' | 'sample'>,
  most: number,
  shares = 1,
): number {
  const wanted = Math.min(most, plan.atOnce);
  const designs = plan.atMost / shares;
  const enough = (cost: number) => Math.min(wanted, Math.max(1, Math.floor((designs * cost) / WORTH)));
  // none costs less
  const least = enough(WIDE);
  return least === wanted ? wanted : enough(guessCost(study, plan.sample(SAMPLE)));
}
