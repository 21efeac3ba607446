import { createPartFormat } from './part-bytes.ts';
import type { PartName } from './part-name.ts';
import { type ReadBuffer, readStretches } from './parts.ts';
import { createChunkMaker, type TableChunk, type TableShape } from './table-chunk.ts';

/** Rows of the tables, and the parts that hold them. */
export interface ChunkRequest {
  readonly first: number;
  readonly count: number;
  readonly parts: readonly PartName[];
  /** Ids of those of the rows that are on the front, ascending. */
  readonly front: Float64Array;
}

/** What the tables of a result are made of. Plain data. */
export interface TableSource {
  /** The result folder. */
  readonly folder: string;
  readonly stamp: string;
  readonly shape: TableShape;
  readonly csv: boolean;
}

/**
 * Reads rows of a result and makes the same rows as the tables hold them, or tells which part cannot be used and why. The bytes
 * of a chunk are good until the next is made.
 */
export function createTabulator({
  folder,
  stamp,
  shape,
  csv,
}: TableSource): (request: ChunkRequest) => Promise<TableChunk | { readonly damaged: string }> {
  const format = createPartFormat(shape, stamp);
  const makeChunk = createChunkMaker(shape);
  /** Of answers under way, each has its own. */
  const buffers: ReadBuffer[][] = [];
  return async ({ first, count, parts, front }) => {
    const some = buffers.pop() ?? [];
    const stretches = await readStretches(folder, parts, format, first, count, some);
    if ('damaged' in stretches) return stretches;
    const chunk = makeChunk(stretches, front, csv);
    buffers.push(some);
    return chunk;
  };
}
