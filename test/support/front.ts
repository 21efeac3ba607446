import type { TableRows } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { collectFront, markFront } from '../../src/store/front-rows.ts';
import { batchOf, type Row } from './batches.ts';

/** The rows as a front, in the order of `front.csv`; ids count from 0 in the order given. */
export function frontOf(study: Study, rows: readonly Row[]): TableRows {
  const collected = collectFront(study, rows.length);
  collected.add(markFront(batchOf(study, rows), Array.from(rows.keys())));
  return collected.sorted();
}
