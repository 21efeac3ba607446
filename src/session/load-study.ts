import { REASONS } from '../model/status.ts';
import type { Study, Task, Varied } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { builtOf, noPossibleDesign } from '../run/no-possible-design.ts';
import { readStudy } from '../study/read-study.ts';
import { emptyExpressionProblems } from './empty-expressions.ts';
import type { ReadingIo } from './io.ts';
import { withIncluded } from './read-included.ts';
import { readStudyFile } from './read-study-file.ts';
import { reportProblems } from './report-problems.ts';

/**
 * The study in a file; null when it has problems, which then stand on stderr: all that reading finds, or that no
 * design of it can be built or judged. Throws UsageError when the file cannot be read.
 */
export async function loadStudy(file: string, allowHuge: boolean, io: ReadingIo): Promise<Study | null> {
  const source = await withIncluded(file, await readStudyFile(file, io), io);
  if (source === null) return null;
  const reading = readStudy(source, { allowHuge });
  if ('problems' in reading) {
    reportProblems(io, file, source, reading.problems);
    return null;
  }
  const { study, locate, warnings } = reading;
  if (warnings.length > 0) reportProblems(io, file, source, warnings, 'warning');
  const built = study.plan.kind === 'grid' ? withVary(study, builtOf(study.vary)) : study;
  const code = await noPossibleDesign(built, createPlan(built), io.signal);
  if (code === null) {
    const empty = emptyExpressionProblems(study, reading);
    if (empty.length === 0) return study;
    reportProblems(io, file, source, empty);
    return null;
  }
  const { text, blame } = REASONS[code]!;
  const problem = {
    ...locate(blame ?? study.vary[0]?.path ?? 'coil.turns'),
    code: 'impossible',
    found: `no design of this study is possible: ${text}`,
    wanted: 'a study in which at least one design can be built',
  };
  reportProblems(io, file, source, [problem]);
  return null;
}

/** What building its designs hangs on, with something else varied. Its hash is no part: it is computed where it is read. */
function withVary(study: Study, vary: readonly Varied[]): Task & Pick<Study, 'plan'> {
  const { rig, derive, limits, objectives, plan } = study;
  return { rig, vary, derive, limits, objectives, plan };
}
