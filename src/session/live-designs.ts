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
import { thinned } from './thinned.ts';
import { wholeParts } from './whole-parts.ts';

/** What a live page may hold; undefined where nobody knows them. */
export type LiveDesigns =
  | {
      /** Of the whole plan. */
      readonly total: number;
      readonly ids: readonly number[];
      /** For each varied input one number a design. */
      readonly columns: readonly Float64Array[];
      /** Of the front of all of them: how many are here because they are on it. */
      readonly front: { readonly kept: number; readonly total: number };
    }
  | undefined;

/** As many as there is room for; null when the signal aborts. */
export type TakeDesigns = (most: number) => Promise<LiveDesigns | null>;

/**
 * The designs that a live page may hold: of a finished result from its parts, its front among them; else of the plan, where
 * that knows them.
 * @param judged the study with the limits and objectives to judge by
 */
export async function liveDesigns(
  { study, result, place }: FoundStudy & { readonly place: string },
  judged: Study,
  io: Io,
): Promise<TakeDesigns> {
  if (!result?.record.finished || result.record.origin === null)
    return (most) => Promise.resolve(planned(study, most));
  const { folder, record } = result;
  const parts = await wholeParts(result);
  const stamp = stampOf(record.hash, result.record.origin, record.format);
  const format = createPartFormat(study, stamp);
  const last = parts.at(-1);
  const total = last ? last.first + last.count : 0;
  let front: ArrayLike<number> | null = null;

  async function findFront(): Promise<ArrayLike<number> | null> {
    if (judged.objectives.length === 0) return [];
    const missing = await missingQuantities(folder, parts, format);
    const known = judgeable(judged, missing, place, io);
    const threads = chooseThreads(null, io);
    const found = await refront({ folder, stamp, parts, study, judged: known, threads }, io.signal);
    return found?.front.designs ?? null;
  }

  return async (most) => {
    if (total > most) front ??= await findFront();
    if (total > most && front === null) return null;
    const { ids, ofFront } = thinned(total, front ?? [], most);
    const columns = study.vary.map(() => new Float64Array(ids.length));
    const buffers: ReadBuffer[] = [];
    for (let at = 0; at < ids.length; ) {
      const [part] = covering(folder, parts, ids[at]!, 1);
      const rows = await readRows(folder, [part!], format, part!.first, part!.count, buffers);
      if ('damaged' in rows)
        throw new FolderError('DAMAGED', folder, `a part of ${folder} cannot be used: ${rows.damaged}`);
      for (; at < ids.length && ids[at]! < part!.first + part!.count; at++)
        copyRow(rows.values, ids[at]! - part!.first, columns, at);
    }
    return { total, ids, columns, front: { kept: ofFront, total: front?.length ?? 0 } };
  };
}

/** A search finds its designs while it runs. */
function planned(study: Study, most: number): LiveDesigns {
  const plan = createPlan(study);
  const { total } = plan;
  if (total === null) return undefined;
  const { ids } = thinned(total, [], most);
  const columns = study.vary.map(() => new Float64Array(ids.length));
  const front = { kept: 0, total: 0 };
  if (plan.design) {
    for (const [at, id] of ids.entries()) copyRow(plan.design(id), 0, columns, at);
    return { total, ids, columns, front };
  }
  let at = 0;
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) {
    for (; at < ids.length && ids[at]! < work.first + work.count; at++) {
      const row = ids[at]! - work.first;
      copyRow(work.values, row, columns, at);
    }
  }
  return { total, ids, columns, front };
}

function copyRow(values: Float64Array, row: number, columns: readonly Float64Array[], at: number): void {
  columns.forEach((column, c) => {
    column[at] = values[row * columns.length + c]!;
  });
}
