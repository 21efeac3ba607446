import { createRestingLast } from '../front/resting-last.ts';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { designKey } from '../plan/space.ts';
import { createRejudge } from '../rig/judge.ts';
import { rejudge } from '../run/rejudge.ts';
import { FolderError } from '../store/folder-error.ts';
import { collectFront, markFront } from '../store/front-rows.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import type { PartName } from '../store/part-name.ts';
import { covering, type ReadBuffer, readRows } from '../store/parts.ts';

export interface Refront {
  /** The result folder, and the mark of its parts. */
  readonly folder: string;
  readonly stamp: string;
  readonly parts: readonly PartName[];
  /** The study as run. */
  readonly study: Study;
  /** The study with the limits and objectives to judge by. */
  readonly judged: Study;
  readonly threads: number;
}

export interface OtherFrontRows {
  readonly designs: number;
  readonly feasible: number;
  /** Best in the first objective first. */
  readonly front: TableRows;
  /** Of a study that descends, the id of the first row of each start, ascending. */
  readonly startRows: Float64Array | null;
}

/** The front of a result under other limits and objectives; null when the signal aborts. */
export async function refront(request: Refront, signal: AbortSignal): Promise<OtherFrontRows | null> {
  const { folder, stamp, parts, study, judged, threads } = request;
  const archive = createRestingLast(judged.objectives.map(({ sense }) => sense));
  let designs = 0;
  let feasible = 0;
  const starts: number[] = [];
  try {
    const replies = rejudge({ folder, stamp, shape: study, task: judged, parts, threads, signal });
    for await (const reply of replies) {
      if ('damaged' in reply) throw damaged(folder, reply.damaged);
      designs += reply.designs;
      feasible += reply.feasible;
      archive.merge(reply.fronts);
      starts.push(...reply.starts);
    }
  } catch (error) {
    if (signal.aborted) return null;
    throw error;
  }
  const startRows = study.plan.kind === 'nelder_mead' ? Float64Array.from(starts) : null;
  return { designs, feasible, front: await frontRows(request, archive.front().ids), startRows };
}

/** The rows of a front, by their ids. What descents evaluated more than once is there once, under its first id, as after a run. */
export async function frontRows(
  request: Omit<Refront, 'threads'>,
  ids: ArrayLike<number>,
): Promise<TableRows> {
  const { folder, stamp, parts, study, judged } = request;
  const judge = createRejudge(judged);
  const format = createPartFormat(study, stamp);
  const buffers: ReadBuffer[] = [];
  const found: TableRows[] = [];
  const seen = study.plan.kind === 'nelder_mead' ? new Set<string>() : null;
  for (let at = 0; at < ids.length; ) {
    const [part] = covering(folder, parts, ids[at]!, 1);
    const rows = await readRows(folder, [part!], format, part!.first, part!.count, buffers);
    if ('damaged' in rows) throw damaged(folder, rows.damaged);
    const width = rows.values.length / rows.count;
    const firsts: number[] = [];
    for (; at < ids.length && ids[at]! < part!.first + part!.count; at++) {
      const row = ids[at]! - part!.first;
      const design = designKey(rows.values.subarray(row * width, (row + 1) * width));
      if (seen?.has(design)) continue;
      seen?.add(design);
      firsts.push(ids[at]!);
    }
    const few = collectFront(judged, firsts.length);
    few.add(markFront(judge(rows), firsts));
    found.push(few.inOrder());
  }
  const front = collectFront(
    judged,
    found.reduce((sum, { count }) => sum + count, 0),
  );
  for (const few of found) front.add(few);
  return front.sorted();
}

function damaged(folder: string, what: string): FolderError {
  return new FolderError('DAMAGED', folder, `a part of ${folder} cannot be used: ${what}`);
}
