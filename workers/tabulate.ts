import { move, transferableSymbol, valueSymbol, workerData } from 'piscina';
import type { TabulateData, TabulateReply, TabulateRequest } from '../src/run/tabulate.ts';
import { createPartFormat } from '../src/store/part-bytes.ts';
import { type Room, readRows } from '../src/store/parts.ts';
import { createChunkMaker } from '../src/store/table-chunk.ts';

const { folder, stamp, shape, csv } = workerData as TabulateData;
const format = createPartFormat(shape, stamp);
const makeChunk = createChunkMaker(shape);

/** Of answers under way, each has its own. */
const rooms: Room[][] = [];

/** Rows of a result in, the same rows as the tables hold them out. */
export default async function answer(request: TabulateRequest) {
  const { first, count, parts, front } = request;
  const some = rooms.pop() ?? [];
  const rows = await readRows(folder, parts, format, first, count, some);
  if ('damaged' in rows) return rows satisfies TabulateReply;
  const chunk: TabulateReply = makeChunk(rows, front, csv);
  rooms.push(some);
  const bytes = chunk.csv ? [chunk.csv, chunk.parquet.bytes] : [chunk.parquet.bytes];
  return move({ [transferableSymbol]: bytes.map(({ buffer }) => buffer), [valueSymbol]: chunk });
}
