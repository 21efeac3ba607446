import { readFileSync } from 'node:fs';
import { createFrontArchive } from '../../src/front/front-archive.ts';
import { createRestingLast } from '../../src/front/resting-last.ts';
import { column, type RowBatch } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { createGrid } from '../../src/plan/grid.ts';
import type { Provenance, ReportInput } from '../../src/report/report-input.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { composeReport } from '../../src/session/compose-report.ts';
import { collectFront, markFront } from '../../src/store/front-rows.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { createSurvey } from '../../src/survey/survey.ts';
import { explainEmptyFront } from '../../src/words/empty-front.ts';

/** Of a run that never was: nothing in a report may hang on the clock. */
const PROVENANCE: Provenance = {
  version: '0.0.0',
  origin: { code: '0', catalogue: '0', engine: '0' },
  node: 'v20.0.0',
  threads: 2,
  seed: null,
  started: '2026-01-01T08:00:00.000Z',
  seconds: 1.5,
};

export function studyFrom(source: string | URL): Study {
  const reading = readStudy(typeof source === 'string' ? source : readFileSync(source));
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  return reading.study;
}

/** Every row of a grid, evaluated on this thread. */
export function evaluated(study: Study): RowBatch[] {
  const plan = createGrid(study.vary);
  const evaluate = createEvaluator(study);
  const batches: RowBatch[] = [];
  for (let batch = plan.next(); batch !== null; batch = plan.next()) batches.push(evaluate(batch));
  return batches;
}

/** What a report of these rows is made of. */
export function reportOn(study: Study, batches: readonly RowBatch[] = evaluated(study)): ReportInput {
  const senses = study.objectives.map(({ sense }) => sense);
  const archive = createRestingLast(senses);
  const survey = createSurvey(study, () => createFrontArchive(senses));
  const emptiness = explainEmptyFront(study);
  for (const batch of batches) {
    const objectives = study.objectives.map((_, o) => column(batch, batch.objectives, o));
    archive.add(batch, objectives);
    survey.add(batch);
    emptiness.add(batch);
  }
  const { ids } = archive.front();
  const collected = collectFront(study, ids.length);
  for (const batch of batches) collected.add(markFront(batch, ids));
  return composeReport({
    study,
    front: collected.sorted(),
    survey,
    whyEmpty: emptiness.words(survey.misses()),
    provenance: PROVENANCE,
  });
}
