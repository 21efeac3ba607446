import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { guessCost } from '../rig/design-cost.ts';
import { createTimeLimit, type TimeLimit } from '../run/time-limit.ts';

const SAMPLE = 48;

/** How long workers may take for designs of a study. `now` in ms. */
export function studyTimeLimit(study: Study, now: () => number): TimeLimit {
  return createTimeLimit(now, 1000 * guessCost(study, createPlan(study).sample(SAMPLE)));
}
