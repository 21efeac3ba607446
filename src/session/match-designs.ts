import { column, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createDesignReader } from '../rig/design.ts';
import { createRejudge } from '../rig/judge.ts';
import { FolderError } from '../store/folder-error.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import { covering, readRows } from '../store/parts.ts';
import type { ResultFront } from './result-front.ts';

/** A design of one result found again in another: the same values of whatever varies in either study. */
export interface MatchedDesign {
  /** Row of the first front. */
  readonly row: number;
  /** Of the other result. */
  readonly design: number;
  readonly feasible: boolean;
  /** By the objectives of the other study, SI. */
  readonly objectives: readonly number[];
}

/** Finds the designs of one front among all rows of another result. */
export async function matchDesigns(
  one: ResultFront,
  other: ResultFront & { readonly folder: string },
  signal: AbortSignal,
): Promise<MatchedDesign[]> {
  const slots = variedSlots(one.study, other.study);
  const wanted = new Map(keysOf(one.study, one.front, slots).map((key, row) => [key, row]));
  const format = createPartFormat(other.study, other.stamp);
  const judge = createRejudge(other.study);
  const found = new Map<number, MatchedDesign>();
  for (const part of other.parts) {
    if (signal.aborted) break;
    const rows = await readRows(
      other.folder,
      covering(other.folder, [part], part.first, part.count),
      format,
      part.first,
      part.count,
    );
    if ('damaged' in rows)
      throw new FolderError(
        'DAMAGED',
        other.folder,
        `a part of ${other.folder} cannot be used: ${rows.damaged}`,
      );
    const judged = judge(rows);
    const objectives = other.study.objectives.map((_, o) => column(judged, judged.objectives, o));
    keysOf(other.study, rows, slots).forEach((key, at) => {
      const row = wanted.get(key);
      if (row === undefined || found.has(row)) return;
      found.set(row, {
        row,
        design: part.first + at,
        feasible: judged.feasible[at] === 1,
        objectives: objectives.map((values) => values[at]!),
      });
    });
  }
  return [...found.values()].sort((a, b) => a.row - b.row);
}

/** Inputs that vary in either study. */
function variedSlots(...studies: readonly Study[]): number[] {
  const slots = studies.flatMap(({ vary }) =>
    vary.flatMap((varied) =>
      varied.kind === 'number'
        ? [varied.slot]
        : varied.levels.flatMap(({ settings }) => settings.map(([slot]) => slot)),
    ),
  );
  return [...new Set(slots)].sort((a, b) => a - b);
}

function keysOf(study: Study, rows: Pick<TableRows, 'count' | 'values'>, slots: readonly number[]): string[] {
  const reader = createDesignReader(study);
  return Array.from({ length: rows.count }, (_, row) => {
    reader.read(rows.values, row * study.vary.length);
    // the same level may be written in two units: 15 digits distinguish designs
    return slots.map((slot) => Number(reader.slots[slot]!.toPrecision(12))).join(' ');
  });
}
