import { workerData } from 'piscina';
import { intoSharedMemory } from '../src/model/shared-memory.ts';
import type { TabulateData, TabulateReply, TabulateTask } from '../src/run/tabulate.ts';
import { createTabulator } from '../src/store/tabulator.ts';

const tabulate = createTabulator(workerData as TabulateData);

/** Rows of a result in, the same rows as the tables hold them out. */
export default async function answer(task: TabulateTask): Promise<TabulateReply> {
  const made = await tabulate(task);
  if ('damaged' in made) return made;
  const { csv: lines, parquet, ...chunk } = made;
  const [bytes, text = null] = intoSharedMemory([parquet.bytes, ...(lines ? [lines] : [])], task.memory);
  return { ...chunk, csv: text, parquet: { ...parquet, bytes: bytes! } };
}
