import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { guessCost, WIDE } from '../rig/design-cost.ts';
import { createEvaluator } from '../rig/evaluate.ts';
import { isolateFault } from '../run/isolate-fault.ts';
import { timePerDesign } from '../run/time-per-design.ts';
import type { Workforce } from '../run/workforce.ts';
import type { TimeDesigns } from '../words/describe-plan.ts';
import type { Io } from './io.ts';

/**
 * What takes no longer than a thread takes to start is done on this thread. The promise that an interrupt ends a run at once
 * is kept: nothing else gets its turn meanwhile, but that is a moment.
 */

/** A thread takes a tenth of a second to start. Guesses are met within a factor of three: see `guessCost`. s */
const SHORT = 0.02;
/** Below this nobody sees in a forecast how long the designs take: any run takes five times as long beside them. s */
const GUESSED = 0.1;
/** A trial ends with the design under way, so that none may take longer than this. s */
const QUICK = 0.005;
const SAMPLE = 48;

/** Whether all of a study takes but a moment. */
export function isShort(study: Study): boolean {
  const plan = createPlan(study);
  if (plan.total === null || plan.total > SHORT / WIDE) return false;
  return plan.total * guessCost(study, plan.sample(SAMPLE)) <= SHORT;
}

/** Tries designs out on this thread, where their time matters; null where one may take long. */
export function timeHere(study: Study, io: Pick<Io, 'now'>): TimeDesigns | null {
  const guess = guessCost(study, createPlan(study).sample(SAMPLE));
  if (guess > QUICK) return null;
  const now = () => {
    const { user, system } = process.cpuUsage();
    return { wall: io.now(), busy: (user + system) / 1000 };
  };
  return async (sample, designs) => {
    const timing =
      designs * guess <= GUESSED
        ? { seconds: guess, slowdown: 1 }
        : timePerDesign(createEvaluator(study), sample, now, undefined, designs);
    return { ...timing, atLeast: false };
  };
}

/** Evaluates on this thread, for a study that is short. A design whose evaluation throws is a failed one, as on any thread. */
export function createWorkforceHere(
  study: Study,
  io: Pick<Io, 'now'>,
): Workforce & { readonly time: TimeDesigns } {
  let fault: string | null = null;
  const onThis = (evaluate: ReturnType<typeof createEvaluator>) => ({
    evaluate: async (batch: Parameters<typeof evaluate>[0]) => evaluate(batch),
    descend: () => Promise.reject(new Error('a short study has no descents')),
  });
  const evaluation = {
    task: study,
    pool: onThis(createEvaluator(study)),
    // what was thrown may have left working arrays half filled
    quarantine: () => onThis(createEvaluator(study)),
    stopped: () => false,
    onFault: (message: string) => {
      fault ??= message;
    },
  };
  return {
    ready: async () => {},
    ahead: 1,
    do: async (_number, work) => {
      if ('from' in work) return evaluation.pool.descend();
      return { rows: await isolateFault(work, evaluation) };
    },
    get fault() {
      return fault;
    },
    time: timeHere(study, io)!,
    giveBack: () => {},
    stop: async () => {},
  };
}
