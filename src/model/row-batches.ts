import type { RowBatch } from './rows.ts';

/** Columns that hold one number a row. */
const FLAGS = ['status', 'reason', 'feasible'] as const;
/** Blocks of columns, one column after the other. */
const BLOCKS = ['quantities', 'derived', 'objectives'] as const;

/** Batches whose designs follow one another, at least one, as one batch. */
export function joinBatches(batches: readonly RowBatch[]): RowBatch {
  const filled = batches.filter(({ count }) => count > 0);
  const head = filled[0] ?? batches[0]!;
  if (filled.length < 2) return head;
  const count = filled.reduce((sum, batch) => sum + batch.count, 0);
  const joined = emptyBatch(head, count);
  let at = 0;
  for (const batch of filled) {
    copyRows(batch, 0, batch.count, joined, at);
    at += batch.count;
  }
  return joined;
}

/** Rows [from, to) of a batch as a batch with arrays of its own. */
export function sliceBatch(batch: RowBatch, from: number, to: number): RowBatch {
  const slice = { ...emptyBatch(batch, to - from), first: batch.first + from };
  copyRows(batch, from, to, slice, 0);
  return slice;
}

/** Room for `count` rows of the shape of a batch, beginning with its first design. */
function emptyBatch(like: RowBatch, count: number): RowBatch {
  const block = (columns: Float64Array) => new Float64Array((columns.length / like.count) * count);
  return {
    first: like.first,
    count,
    values: block(like.values),
    status: new Uint8Array(count),
    reason: new Uint8Array(count),
    feasible: new Uint8Array(count),
    unmet: new Uint32Array(count),
    violation: new Float64Array(count),
    quantities: block(like.quantities),
    derived: block(like.derived),
    objectives: block(like.objectives),
  };
}

function copyRows(from: RowBatch, start: number, end: number, into: RowBatch, at: number): void {
  const width = from.values.length / from.count;
  into.values.set(from.values.subarray(start * width, end * width), at * width);
  for (const key of FLAGS) into[key].set(from[key].subarray(start, end), at);
  into.unmet.set(from.unmet.subarray(start, end), at);
  into.violation.set(from.violation.subarray(start, end), at);
  for (const key of BLOCKS) {
    const columns = from[key].length / from.count;
    for (let c = 0; c < columns; c++) {
      const source = c * from.count;
      into[key].set(from[key].subarray(source + start, source + end), c * into.count + at);
    }
  }
}
