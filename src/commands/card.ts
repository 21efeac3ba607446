import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { inspectFolder } from '../store/result-folder.ts';
import { makeCard } from './bench-card.ts';
import { cardJson } from './card-json.ts';
import { cardText } from './card-text.ts';
import { count } from './describe.ts';
import { EXIT, type Io } from './io.ts';
import { loadStudy } from './load-study.ts';

export interface CardOptions {
  readonly design: number;
  readonly json: boolean;
}

/** Widest card: it is printed and hung up at the bench. */
const WIDEST = 80;

/** `eddylift card`: the bench card of one design of a study, or of the study of a result folder. */
export async function card(place: string, { design, json }: CardOptions, io: Io): Promise<number> {
  const study = await loadStudy(await studyFileOf(place, io.cwd), true, io);
  if (!study) return EXIT.usage;
  const made = makeCard(study, design, valuesOf(study, design));
  if (json) io.stdout.write(`${JSON.stringify(cardJson(made))}\n`);
  else io.stdout.write(cardText(made, Math.min(WIDEST, io.stdout.columns ?? WIDEST)));
  return EXIT.done;
}

/** A result folder stands for the study in it. */
async function studyFileOf(place: string, cwd: string): Promise<string> {
  const path = resolve(cwd, place);
  const isFolder = await stat(path).then(
    (found) => found.isDirectory(),
    // whoever reads the study says what is wrong with the path
    () => false,
  );
  if (!isFolder) return place;
  const { kind } = await inspectFolder(path);
  if (kind !== 'result') {
    throw new UsageError(`${place} is a folder but no result: it has no ${RESULT_FILES.run} of a run`);
  }
  return join(place, RESULT_FILES.study);
}

/** What varies, for one design of the plan. A search knows its designs only while it runs. */
function valuesOf(study: Study, design: number): Float64Array {
  const plan = createPlan(study);
  if (plan.total !== null && design >= plan.total) {
    throw new UsageError(
      `there is no design ${design}: the study has ${count(plan.total, 'design')}, 0 to ${plan.total - 1}`,
    );
  }
  const width = study.vary.length;
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) {
    const at = design - work.first;
    if (at < work.count) return work.values.slice(at * width, (at + 1) * width);
  }
  throw new UsageError(
    `design ${design} is one of a search (plan: ${study.plan.kind}), whose designs only a run can tell`,
  );
}
