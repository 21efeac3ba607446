import type { LiveData } from '../live/live-data.ts';
import { thinned } from '../live/thinned.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { FolderError } from '../store/folder-error.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import { covering, missingQuantities, type ReadBuffer, readRows } from '../store/parts.ts';
import { stampOf } from '../store/result-folder.ts';
import { chooseThreads } from './choose-threads.ts';
import type { FoundStudy } from './find-design.ts';
import type { Io } from './io.ts';
import { judgeable } from './judgeable.ts';
import { refront } from './refront.ts';
import { wholeParts } from './whole-parts.ts';

type LiveDesigns = LiveData['designs'];

/**
 * The designs that a live page holds: of a finished result from its parts, its front among them; else of the plan, where
 * that knows them. Undefined where nobody does; null when the signal aborts.
 * @param judged the study with the limits and objectives to judge by
 * @param most how many there is room for
 */
export async function liveDesigns(
  { study, result, place }: FoundStudy & { readonly place: string },
  judged: Study,
  most: number,
  io: Io,
): Promise<LiveDesigns | null> {
  if (!result?.record.finished || result.record.origin === null) return planned(study, most);
  const { folder, record } = result;
  const parts = await wholeParts(result);
  const stamp = stampOf(record.hash, result.record.origin, record.format);
  const last = parts.at(-1);
  const total = last ? last.first + last.count : 0;
  let front: ArrayLike<number> = [];
  if (total > most && judged.objectives.length > 0) {
    const missing = await missingQuantities(folder, parts, createPartFormat(study, stamp));
    const known = judgeable(judged, missing, place, io);
    const threads = chooseThreads(null, io);
    const found = await refront({ folder, stamp, parts, study, judged: known, threads }, io.signal);
    if (found === null) return null;
    front = found.front.designs;
  }
  const { ids, ofFront } = thinned(total, front, most);
  const width = study.vary.length;
  const values = new Float64Array(ids.length * width);
  const format = createPartFormat(study, stamp);
  const buffers: ReadBuffer[] = [];
  for (let at = 0; at < ids.length; ) {
    const [part] = covering(folder, parts, ids[at]!, 1);
    const rows = await readRows(folder, [part!], format, part!.first, part!.count, buffers);
    if ('damaged' in rows)
      throw new FolderError('DAMAGED', folder, `a part of ${folder} cannot be used: ${rows.damaged}`);
    for (; at < ids.length && ids[at]! < part!.first + part!.count; at++) {
      const row = ids[at]! - part!.first;
      values.set(rows.values.subarray(row * width, (row + 1) * width), at * width);
    }
  }
  return { total, ids, values, front: { kept: ofFront, total: front.length } };
}

/** A search finds its designs while it runs. */
function planned(study: Study, most: number): LiveDesigns {
  const plan = createPlan(study);
  const { total } = plan;
  if (total === null) return undefined;
  const { ids } = thinned(total, [], most);
  const width = study.vary.length;
  const values = new Float64Array(ids.length * width);
  let at = 0;
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) {
    for (; at < ids.length && ids[at]! < work.first + work.count; at++) {
      const row = ids[at]! - work.first;
      values.set(work.values.subarray(row * width, (row + 1) * width), at * width);
    }
  }
  return { total, ids, values, front: { kept: 0, total: 0 } };
}
