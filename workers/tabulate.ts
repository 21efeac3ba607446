import { workerData } from 'piscina';
import { intoSharedMemory } from '../src/model/shared-memory.ts';
import type { TabulateData, TabulateReply, TabulateTask } from '../src/run/tabulate.ts';
import { createPartFormat } from '../src/store/part-bytes.ts';
import { type ReadBuffer, readRows } from '../src/store/parts.ts';
import { createChunkMaker } from '../src/store/table-chunk.ts';

const { folder, stamp, shape, csv } = workerData as TabulateData;
const format = createPartFormat(shape, stamp);
const makeChunk = createChunkMaker(shape);

/** Of answers under way, each has its own. */
const buffers: ReadBuffer[][] = [];

/** Rows of a result in, the same rows as the tables hold them out. */
export default async function answer(task: TabulateTask): Promise<TabulateReply> {
  const { first, count, parts, front, memory } = task;
  const some = buffers.pop() ?? [];
  const rows = await readRows(folder, parts, format, first, count, some);
  if ('damaged' in rows) return rows;
  const { csv: lines, parquet, ...chunk } = makeChunk(rows, front, csv);
  buffers.push(some);
  const [bytes, text = null] = intoSharedMemory([parquet.bytes, ...(lines ? [lines] : [])], memory);
  return { ...chunk, csv: text, parquet: { ...parquet, bytes: bytes! } };
}
