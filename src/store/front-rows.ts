import { quantityColumns } from '../model/quantities.ts';
import { column, type RowBatch, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';

type Shape = Pick<Study, 'vary' | 'derive' | 'objectives' | 'requested'>;

/** A batch as tables take it. `front` holds ids, ascending. */
export function markFront(batch: RowBatch, front: ArrayLike<number>): TableRows {
  const onFront = new Uint8Array(batch.count);
  const end = batch.first + batch.count;
  for (let i = lowerBound(front, batch.first); i < front.length && front[i]! < end; i++) {
    onFront[front[i]! - batch.first] = 1;
  }
  const designs = new Float64Array(batch.count);
  for (let i = 0; i < batch.count; i++) designs[i] = batch.first + i;
  return { ...batch, designs, onFront };
}

/** Collects the marked rows of marked batches: the whole front in one small block. */
export interface FrontRows {
  add(rows: TableRows): void;
  /** What was collected, as it came. Throws when rows are missing. */
  inOrder(): TableRows;
  /** The same, best in the first objective first, equals by id. */
  sorted(): TableRows;
}

/** `size` rows will come. */
export function collectFront(study: Shape, size: number): FrontRows {
  const rows = emptyRows(study, size);
  let found = 0;
  function inOrder(): TableRows {
    if (found !== size) throw new Error(`the front has ${size} rows, but ${found} of them came`);
    return rows;
  }
  return {
    add(from) {
      for (let i = 0; i < from.count; i++) if (from.onFront[i]) copyRow(from, i, rows, found++);
    },
    inOrder,
    sorted() {
      inOrder();
      if (study.objectives.length === 0) return rows;
      const first = column(rows, rows.objectives, 0);
      const sign = study.objectives[0]?.sense === 'maximise' ? -1 : 1;
      // Rows came in design order and the sort is stable: equals stay by id.
      const order = Array.from(first.keys()).sort((a, b) => sign * (first[a]! - first[b]!));
      const result = emptyRows(study, size);
      order.forEach((row, at) => {
        copyRow(rows, row, result, at);
      });
      return result;
    },
  };
}

function emptyRows(study: Shape, count: number): TableRows {
  return {
    count,
    designs: new Float64Array(count),
    values: new Float64Array(count * study.vary.length),
    status: new Uint8Array(count),
    reason: new Uint8Array(count),
    feasible: new Uint8Array(count),
    unmet: new Uint32Array(count),
    onFront: new Uint8Array(count),
    quantities: new Float64Array(count * quantityColumns(study.requested)),
    derived: new Float64Array(count * study.derive.length),
    objectives: new Float64Array(count * study.objectives.length),
  };
}

function copyRow(from: TableRows, row: number, to: TableRows, at: number): void {
  for (const key of ['designs', 'status', 'reason', 'feasible', 'unmet', 'onFront'] as const) {
    to[key][at] = from[key][row]!;
  }
  const width = from.count === 0 ? 0 : from.values.length / from.count;
  for (let i = 0; i < width; i++) to.values[at * width + i] = from.values[row * width + i]!;
  for (const key of ['quantities', 'derived', 'objectives'] as const) {
    const columns = to[key].length / to.count;
    for (let i = 0; i < columns; i++) to[key][i * to.count + at] = from[key][i * from.count + row]!;
  }
}

function lowerBound(sorted: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
