import { UsageError } from '../errors.ts';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import type { PartName } from '../store/part-name.ts';
import { missingQuantities } from '../store/parts.ts';
import { stampOf } from '../store/result-folder.ts';
import { chooseThreads } from './choose-threads.ts';
import type { FoundResult } from './find-result.ts';
import type { Io } from './io.ts';
import { judgeable } from './judgeable.ts';
import { frontRows, refront } from './refront.ts';
import { wholeParts } from './whole-parts.ts';

export interface ResultFront {
  /** As its rows can be judged. */
  readonly study: Study;
  readonly designs: number;
  readonly feasible: number;
  /** Best in the first objective first; of one design without objectives that design; empty where nothing is sought. */
  readonly front: TableRows;
  readonly parts: readonly PartName[];
  readonly stamp: string;
}

/** The front of a finished result by its own study, from its parts; null when the signal aborts. */
export async function resultFront(result: FoundResult, place: string, io: Io): Promise<ResultFront | null> {
  const { study, folder, record } = result;
  if (!record.finished || record.origin === null) {
    throw new UsageError(`${place} is not finished: eddylift run continues it`);
  }
  const stamp = stampOf(record.hash, record.origin, record.format);
  const parts = await wholeParts(result);
  const missing = await missingQuantities(folder, parts, createPartFormat(study, stamp));
  const judged = judgeable(study, missing, place, io);
  const found = await refront(
    { folder, stamp, parts, study, judged, threads: chooseThreads(null, io) },
    io.signal,
  );
  if (found === null) return null;
  const only = judged.objectives.length === 0 && found.designs === 1;
  const front = only ? await frontRows({ folder, stamp, parts, study, judged }, [0]) : found.front;
  return { study: judged, designs: found.designs, feasible: found.feasible, front, parts, stamp };
}
