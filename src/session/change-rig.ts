import type { Study } from '../model/study.ts';
import { readFormerStudy } from '../study/former-words.ts';
import { type ChangedInput, setInputs } from '../study/set-inputs.ts';
import type { FoundDesign } from './find-design.ts';
import type { Io } from './io.ts';
import { reportProblems } from './report-problems.ts';

export interface ChangedRig {
  /** Of this one rig: nothing varies. */
  readonly study: Study;
  readonly changes: readonly ChangedInput[];
}

/** A design with some of its inputs changed, each as `path=value`; null when that has problems, which then stand on stderr. */
export function changeRig(
  { study, values }: Pick<FoundDesign, 'study' | 'values'>,
  settings: readonly string[],
  io: Pick<Io, 'stderr' | 'document'>,
): ChangedRig | null {
  const changed = setInputs(study, values, settings);
  if ('problems' in changed) {
    for (const { text, problem } of changed.problems) {
      reportProblems(io, '--set', text, [problem]);
    }
    return null;
  }
  const reading = readFormerStudy(changed.text);
  if ('study' in reading) return { study: reading.study, changes: changed.changes };
  reportProblems(io, 'the changed study', changed.text, reading.problems);
  return null;
}
