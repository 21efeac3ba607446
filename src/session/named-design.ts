import { UsageError } from '../errors.ts';
import { compileObjective } from '../expression/compile.ts';
import { kneeRow } from '../front/landmarks.ts';
import type { Sense } from '../front/senses.ts';
import { column } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { stampOf } from '../store/result-folder.ts';
import { count } from '../words/describe-plan.ts';
import { chooseThreads } from './choose-threads.ts';
import type { FoundResult } from './find-result.ts';
import type { Io } from './io.ts';
import { wholeParts } from './whole-parts.ts';

/** Designs that go by what they are best at. */
export const DESIGN_NAMES = Object.freeze({
  best: 'best in the first objective',
  knee: 'the best compromise of the front',
  lightest: 'the lightest coil that is feasible',
});
export type DesignName = keyof typeof DESIGN_NAMES;

/** A design's number, or what it is best at; null where the study leaves no choice. */
export type DesignChoice = number | DesignName | null;

/**
 * The number of the chosen design. Throws UsageError where that is not known; null when the signal aborts
 * before it is found.
 */
export async function numberOf(
  choice: DesignChoice,
  { study, result }: { readonly study: Study; readonly result: FoundResult | null },
  place: string,
  io: Io,
): Promise<number | null> {
  if (typeof choice === 'number') return choice;
  const { total, atMost } = createPlan(study);
  if (total === 1) return 0;
  if (choice === null) {
    const names = result ? `, or ${Object.keys(DESIGN_NAMES).join(', ')}` : '';
    throw new UsageError(
      `${place} has ${total === null ? 'up to ' : ''}${count(atMost, 'design')}: choose one with --design, 0 to ${atMost - 1}${names}`,
    );
  }
  if (!result?.record.finished || result.record.origin === null) {
    throw new UsageError(
      `which design is ${DESIGN_NAMES[choice]} is known after a run: eddylift run ${result ? 'continues it' : place}, then name the result folder`,
    );
  }
  return findByName(choice, study, result, place, io);
}

async function findByName(
  name: DesignName,
  study: Study,
  result: FoundResult,
  place: string,
  io: Io,
): Promise<number | null> {
  const judged = name === 'lightest' ? lightestOf(study) : study;
  if (judged.objectives.length === 0) {
    throw new UsageError(`the study of ${place} has no objectives: no design of it is ${DESIGN_NAMES[name]}`);
  }
  const { folder, record } = result;
  const parts = await wholeParts(result);
  const stamp = stampOf(record.hash, record.origin!, record.format);
  const threads = chooseThreads(null, io);
  // reads the parts on threads
  const { refront } = await import('./refront.ts');
  const found = await refront({ folder, stamp, parts, study, judged, threads }, io.signal);
  if (found === null) return null;
  const { front } = found;
  if (front.count === 0) throw new UsageError(`no design of ${place} is feasible: name one by its number`);
  if (name === 'best') return front.designs[0]!;
  const columns = judged.objectives.map((_, o) => column(front, front.objectives, o));
  const senses = judged.objectives.map(({ sense }) => sense);
  if (name === 'lightest') return front.designs[bestOfLightest(columns, senses)]!;
  return front.designs[kneeRow(columns, senses)]!;
}

/** Rows of one mass are many; of them the best in the study's own first objective. The first column is the mass. */
function bestOfLightest([mass, own]: readonly Float64Array[], [, sense]: readonly Sense[]): number {
  const sign = sense === 'maximise' ? -1 : 1;
  let best = 0;
  for (let row = 1; own && row < own.length && mass![row] === mass![0]; row++) {
    if (sign * own[row]! < sign * own[best]!) best = row;
  }
  return best;
}

function lightestOf(study: Study): Study {
  const mass = compileObjective('coil_mass', 'minimise', study.derive);
  if (!mass.ok) throw new Error(mass.flaw.found);
  return { ...study, objectives: [mass.value, ...study.objectives] };
}
