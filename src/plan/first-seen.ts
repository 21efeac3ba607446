import type { RowBatch } from '../model/rows.ts';
import { designKey } from './space.ts';

/**
 * Finds rows whose design has not come before. Descents that end in the same place evaluate the same designs, and one
 * row of them is enough for the front. Remembers every design.
 */
export function createFirstSeen(): (rows: RowBatch) => Uint8Array {
  const seen = new Set<string>();
  return ({ count, values }) => {
    const width = values.length / count;
    return Uint8Array.from({ length: count }, (_, i) => {
      const key = designKey(values.subarray(i * width, (i + 1) * width));
      if (seen.has(key)) return 0;
      seen.add(key);
      return 1;
    });
  };
}
