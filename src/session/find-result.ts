import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { studyChanges } from '../store/own-study.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { inspectFolder } from '../store/result-folder.ts';
import type { FoundRecord } from '../store/run-record.ts';
import { readFormerStudy } from '../study/former-words.ts';
import type { Io } from './io.ts';
import { readStudyFile } from './read-study-file.ts';
import { reportProblems } from './report-problems.ts';

export interface FoundResult {
  readonly folder: string;
  readonly record: FoundRecord;
  /** As run. */
  readonly study: Study;
}

/**
 * The result in a folder; null when its study has problems, which then stand on stderr. Throws UsageError when the
 * folder holds no result, or its study is not the one that was run.
 */
export async function findResult(place: string, io: Io): Promise<FoundResult | null> {
  const folder = resolve(io.cwd, place);
  const state = await inspectFolder(folder, 'read the result in');
  if (state.kind !== 'result') {
    const why =
      state.kind === 'absent' ? 'there is no such folder' : `it has no ${RESULT_FILES.run} of a run`;
    throw new UsageError(`${place} is no result: ${why}`);
  }
  const file = join(place, RESULT_FILES.study);
  const source = await readStudyFile(file, io);
  const changes = studyChanges(source, state);
  if (changes !== null) {
    throw new UsageError(`${place} cannot be trusted: ${changes}`);
  }
  // whether a design of it is possible today does not matter: its rows are there
  const reading = readFormerStudy(source, { allowHuge: true });
  if ('study' in reading) return { folder, record: state, study: reading.study };
  reportProblems(io, file, source, reading.problems);
  return null;
}
