import { tableColumns } from '../model/table-columns.ts';
import { findResult } from '../session/find-result.ts';
import { resultFront } from '../session/result-front.ts';
import { markFront } from '../store/front-rows.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import { readRows } from '../store/parts.ts';
import { columnOf, outside } from './inside/insides.ts';
import { rowsOf } from './inside/rows.ts';
import { createWorld, throwProblems, worded } from './inside/world.ts';
import { type Column, EddyliftError, type Row, type Study } from './types.ts';

/** A finished result. */
export interface Result {
  readonly folder: string;
  /** As it was run. */
  readonly study: Study;
  readonly designs: number;
  readonly feasible: number;
  /** Of its rows. */
  readonly columns: readonly Column[];
  /** The rows of the Pareto front, best in the first objective first. */
  readonly front: readonly Row[];
  /** All rows in design order; few are in memory at a time. */
  rows(): AsyncGenerator<Row, void, undefined>;
}

/**
 * Reads a finished result from its folder; nothing is evaluated. Throws an EddyliftError where the folder holds none, or
 * one that is not finished or was changed.
 */
export async function readResult(folder: string): Promise<Result> {
  const world = createWorld();
  const found = await worded(() => findResult(folder, world));
  if (!found) throwProblems(world);
  const front = await worded(() => resultFront(found, folder, world));
  if (!front) throw new Error('interrupted');
  const { study, parts, stamp } = front;
  const columns = tableColumns(study);
  const format = createPartFormat(found.study, stamp);
  const ids = Float64Array.from(front.front.designs).sort();
  return {
    folder,
    study: outside(found.study, world.document.problems),
    designs: front.designs,
    feasible: front.feasible,
    columns: columns.map(columnOf),
    front: rowsOf(columns, front.front),
    async *rows() {
      for (const part of parts) {
        const rows = await worded(() => readRows(found.folder, [part], format, part.first, part.count));
        if ('damaged' in rows) throw new EddyliftError(`${folder} cannot be read: ${rows.damaged}`, []);
        yield* rowsOf(columns, markFront(rows, ids));
      }
    },
  };
}
