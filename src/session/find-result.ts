import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { inspectFolder } from '../store/result-folder.ts';
import type { FoundRecord } from '../store/run-record.ts';
import type { Io } from './io.ts';
import { loadStudy } from './load-study.ts';

export interface FoundResult {
  readonly folder: string;
  readonly record: Omit<FoundRecord, 'format'>;
  /** As run. */
  readonly study: Study;
}

/**
 * The result in a folder; null when its study has problems, which then stand on stderr. Throws UsageError when the
 * folder holds no result.
 */
export async function findResult(place: string, io: Io): Promise<FoundResult | null> {
  const folder = resolve(io.cwd, place);
  const state = await inspectFolder(folder, 'read the result in');
  if (state.kind !== 'result') {
    const why =
      state.kind === 'absent' ? 'there is no such folder' : `it has no ${RESULT_FILES.run} of a run`;
    throw new UsageError(`${place} is no result: ${why}`);
  }
  const study = await loadStudy(join(place, RESULT_FILES.study), true, io);
  return study && { folder, record: state, study };
}
