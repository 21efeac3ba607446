import type { TableRows } from '../model/rows.ts';
import type { ReportInput } from './report-input.ts';

/** What a page shows of a front, and how long the front really is. */
export interface ShownFront {
  /** As given, but with only the shown designs on the front. */
  readonly input: ReportInput;
  /** Designs on the whole front. */
  readonly of: number;
}

/** So many dots can still be distinguished, and their numbers fit a page of a few megabytes. */
const MOST_SHOWN = 1000;

/** All of the front, or, where it is too long, every n-th design of it and the chosen ones. */
export function shownFront(input: ReportInput, most = MOST_SHOWN): ShownFront {
  const { front, chosen, slotsOf } = input;
  if (front.count <= most) return { input, of: front.count };
  const rows = evenlyChosen(
    front.count,
    most,
    chosen.map(({ row }) => row),
  );
  const shown = {
    ...input,
    front: takeRows(front, rows),
    chosen: chosen.map((design) => ({ ...design, row: rows.indexOf(design.row) })),
    slotsOf: (row: number) => slotsOf(rows[row]!),
  };
  return { input: shown, of: front.count };
}

/** Numbers below `count`, ascending: at most `most` of them, evenly spread, `always` among them. */
export function evenlyChosen(count: number, most: number, always: readonly number[]): number[] {
  if (count <= most) return Array.from({ length: count }, (_, i) => i);
  const picked = new Set(always);
  const free = Math.max(0, most - picked.size);
  for (let i = 0; i < free; i++) picked.add(Math.round((i * (count - 1)) / Math.max(1, free - 1)));
  return [...picked].sort((a, b) => a - b);
}

function takeRows(from: TableRows, rows: readonly number[]): TableRows {
  const width = from.values.length / from.count;
  const columns = (cells: Float64Array) =>
    Float64Array.from({ length: (cells.length / from.count) * rows.length }, (_, i) => {
      const column = Math.floor(i / rows.length);
      return cells[column * from.count + rows[i % rows.length]!]!;
    });
  return {
    count: rows.length,
    designs: Float64Array.from(rows, (row) => from.designs[row]!),
    values: Float64Array.from(
      rows.flatMap((row) => [...from.values.subarray(row * width, (row + 1) * width)]),
    ),
    status: Uint8Array.from(rows, (row) => from.status[row]!),
    reason: Uint8Array.from(rows, (row) => from.reason[row]!),
    feasible: Uint8Array.from(rows, (row) => from.feasible[row]!),
    unmet: Uint32Array.from(rows, (row) => from.unmet[row]!),
    onFront: Uint8Array.from(rows, (row) => from.onFront[row]!),
    quantities: columns(from.quantities),
    derived: columns(from.derived),
    objectives: columns(from.objectives),
  };
}
