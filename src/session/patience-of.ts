import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { guessCost } from '../rig/design-cost.ts';
import { createPatience, type Patience } from '../run/time-limit.ts';

const SAMPLE = 48;

/** How long workers may take for designs of a study. `now` in ms. */
export function patienceOf(study: Study, now: () => number): Patience {
  return createPatience(now, 1000 * guessCost(study, createPlan(study).sample(SAMPLE)));
}
