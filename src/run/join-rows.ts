import type { RowBatch } from '../model/rows.ts';

/** Two batches whose designs follow one another, as one. */
export function joinRows(a: RowBatch, b: RowBatch): RowBatch {
  const columns = (of: 'quantities' | 'derived' | 'objectives') =>
    joinColumns(a[of], a.count, b[of], b.count);
  return {
    first: a.first,
    count: a.count + b.count,
    values: joinColumns(a.values, a.values.length, b.values, b.values.length),
    status: Uint8Array.of(...a.status, ...b.status),
    reason: Uint8Array.of(...a.reason, ...b.reason),
    feasible: Uint8Array.of(...a.feasible, ...b.feasible),
    unmet: Uint32Array.of(...a.unmet, ...b.unmet),
    quantities: columns('quantities'),
    derived: columns('derived'),
    objectives: columns('objectives'),
  };
}

/** Columns `countA` long beside columns `countB` long, to columns of both. */
function joinColumns(a: Float64Array, countA: number, b: Float64Array, countB: number): Float64Array {
  const joined = new Float64Array(a.length + b.length);
  const columns = countA === 0 ? 0 : a.length / countA;
  for (let c = 0; c < columns; c++) {
    const at = c * (countA + countB);
    joined.set(a.subarray(c * countA, (c + 1) * countA), at);
    joined.set(b.subarray(c * countB, (c + 1) * countB), at + countA);
  }
  return joined;
}
