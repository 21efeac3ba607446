import { createHash } from 'node:crypto';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { tableColumns } from '../model/table-columns.ts';
import { writeAtomically } from './atomic-file.ts';
import { createCsvText } from './csv-text.ts';
import type { OtherFront } from './result-files.ts';

/** The same limits and objectives give the same name. */
export function otherFrontName({ limits, objectives }: Pick<Study, 'limits' | 'objectives'>): OtherFront {
  const criteria = [limits.map(({ text }) => text), objectives.map(({ sense, text }) => [sense, text])];
  const digest = createHash('sha256').update(JSON.stringify(criteria)).digest('hex').slice(0, 8);
  return `front-${digest}.csv`;
}

/**
 * Writes a front under other limits and objectives beside the study's own: the columns of `front.csv`, in which
 * `feasible` and `on_front` are by these.
 * `startRows`: of a study that descends, the id of the first row of each start, ascending.
 */
export async function writeOtherFront(
  folder: string,
  study: Study,
  front: TableRows,
  startRows: Float64Array | null,
): Promise<void> {
  const csvText = createCsvText(tableColumns(study, startRows));
  const lines = csvText.lines(front, 0, front.count);
  await writeAtomically(folder, otherFrontName(study), csvText.header, lines);
}
