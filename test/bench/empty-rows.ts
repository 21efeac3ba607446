import { move, transferableSymbol, valueSymbol } from 'piscina';
import { QUANTITIES } from '../../src/model/quantities.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { sharedBytes } from '../../src/model/shared-memory.ts';
import type { BatchRequest } from '../../src/run/messages.ts';

/** A worker that answers with rows as large as evaluated ones and evaluates nothing: what is left is messages. */
export default function answer({ first, count, values, memory }: BatchRequest) {
  const cells = count * QUANTITIES.length;
  const rows: RowBatch = {
    first,
    count,
    values,
    status: new Uint8Array(count),
    reason: new Uint8Array(count),
    feasible: new Uint8Array(count),
    unmet: new Uint32Array(count),
    violation: new Float64Array(count),
    // not filled: evaluating writes there anyway
    quantities: new Float64Array(sharedBytes(8 * cells, memory).buffer, 0, cells),
    derived: new Float64Array(0),
    objectives: new Float64Array(0),
  };
  const buffers = Object.values(rows)
    .flatMap((value) => (ArrayBuffer.isView(value) ? [value.buffer] : []))
    .filter((buffer) => buffer instanceof ArrayBuffer);
  return move({ [transferableSymbol]: buffers, [valueSymbol]: rows });
}
