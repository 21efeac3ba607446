import { createFrontArchive } from '../front/front-archive.ts';
import { createRestingLast } from '../front/resting-last.ts';
import { column } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { createFirstSeen } from '../plan/first-seen.ts';
import type { DescentReport, SearchOutcome } from '../plan/plan.ts';
import type { Share } from '../plan/share.ts';
import { evaluateStudy } from '../run/evaluate-study.ts';
import type { Progress } from '../run/progress.ts';
import type { Done, Workforce } from '../run/workforce.ts';
import { createPartWriter } from '../store/part-writer.ts';
import type { Parts } from '../store/parts.ts';
import { createSurvey, type SurveyTally } from '../survey/survey.ts';
import { explainEmptyFront } from '../words/empty-front.ts';
import type { Io } from './io.ts';

export interface Evaluated {
  readonly interrupted: boolean;
  readonly designs: number;
  /** Ids of the front, ascending. */
  readonly front: Float64Array;
  readonly fault: string | null;
  /** How a search went; null for a plan that seeks nothing, and for one that was interrupted. */
  readonly outcome: SearchOutcome | null;
  /** A few lines for a front that has no design. */
  readonly whyEmpty: string;
  /** What a report shows of all rows. */
  readonly survey: SurveyTally;
}

export interface Effort {
  /** Who evaluates; stopped at the end. */
  readonly workforce: Workforce;
  /** Null: all of it. */
  readonly share: Share | null;
  /** Given the number of designs, or the most that there may be. */
  readonly progress: (total: number) => Progress;
}

/** Where there is no front because none was wanted. */
const NO_OBJECTIVES = 'The study has no objectives, so there is no front: the tables hold every design.';

/** Every row of a study to its parts on disk, save for those that are there already, and its front. */
export async function evaluateAll(study: Study, parts: Parts, effort: Effort, io: Io): Promise<Evaluated> {
  const plan = createPlan(study);
  const senses = study.objectives.map(({ sense }) => sense);
  const archive = createRestingLast(senses);
  const survey = createSurvey(study, () => createFrontArchive(senses));
  const emptiness = explainEmptyFront(study);
  const firstSeen = study.plan.kind === 'nelder_mead' ? createFirstSeen() : null;
  const { workforce, share } = effort;
  const writer = createPartWriter(parts, io.now, ({ rows }) => workforce.giveBack(rows));
  const progress = effort.progress(Math.ceil((plan.total ?? plan.atMost) / (share?.of ?? 1)));
  try {
    const { interrupted, designs, fault } = await evaluateStudy({
      plan,
      workforce,
      signal: io.signal,
      // what a part holds beside its rows is what was put there below
      kept: (number) => parts.read(number) as Promise<Done | null>,
      ...(share && { only: (number: number) => number % share.of === share.part - 1 }),
      onRows: async (number, rows, report: DescentReport | null, kept) => {
        emptiness.add(rows);
        survey.add(rows);
        const objectives = study.objectives.map((_, i) => column(rows, rows.objectives, i));
        const fresh = firstSeen?.(rows);
        const feasible = fresh ? fresh.map((is, i) => is & rows.feasible[i]!) : rows.feasible;
        archive.add({ first: rows.first, feasible, status: rows.status }, objectives);
        if (!kept) await writer.add(number, { rows, report });
      },
      onProgress: progress.update,
    });
    await writer.flush();
    const front = archive.front().ids;
    const { outcome } = plan;
    return {
      interrupted,
      designs,
      front,
      fault,
      outcome,
      whyEmpty: senses.length === 0 ? NO_OBJECTIVES : emptiness.words(survey.misses()),
      survey,
    };
  } finally {
    progress.stop();
  }
}
