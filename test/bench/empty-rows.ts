import { move, transferableSymbol, valueSymbol } from 'piscina';
import { QUANTITIES } from '../../src/model/quantities.ts';
import type { DesignBatch, RowBatch } from '../../src/model/rows.ts';

/** A worker that answers with rows as large as evaluated ones and evaluates nothing: what is left is messages. */
export default function answer({ first, count, values }: DesignBatch) {
  const rows: RowBatch = {
    first,
    count,
    values,
    status: new Uint8Array(count),
    reason: new Uint8Array(count),
    feasible: new Uint8Array(count),
    unmet: new Uint32Array(count),
    violation: new Float64Array(count),
    quantities: new Float64Array(count * QUANTITIES.length),
    derived: new Float64Array(0),
    objectives: new Float64Array(0),
  };
  const buffers = Object.values(rows).flatMap((value) => (ArrayBuffer.isView(value) ? [value.buffer] : []));
  return move({ [transferableSymbol]: buffers, [valueSymbol]: rows });
}
