import { createHash } from 'node:crypto';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { type TableColumn, tableColumns } from '../model/table-columns.ts';
import { unitInCurrency } from '../text/currency.ts';
import { writeAtomically } from './atomic-file.ts';
import { createCsvText } from './csv-text.ts';
import { frontMetadata } from './csvw-metadata.ts';
import { RESULT_FILES, type ResultFile } from './result-files.ts';

/** The files of one front. */
export interface FrontFiles {
  readonly csv: ResultFile;
  readonly metadata: ResultFile;
  readonly workbook: ResultFile;
}

const OWN: FrontFiles = {
  csv: RESULT_FILES.front,
  metadata: RESULT_FILES.frontMetadata,
  workbook: RESULT_FILES.frontWorkbook,
};

/** Files of a front under other limits and objectives: the same ones give the same names. */
export function otherFrontFiles({ limits, objectives }: Pick<Study, 'limits' | 'objectives'>): FrontFiles {
  const criteria = [limits.map(({ text }) => text), objectives.map(({ sense, text }) => [sense, text])];
  const digest = createHash('sha256').update(JSON.stringify(criteria)).digest('hex').slice(0, 8);
  return {
    csv: `front-${digest}.csv`,
    metadata: `front-${digest}.csv-metadata.json`,
    workbook: `front-${digest}.xlsx`,
  };
}

/** The columns of a study's tables, money in its currency. */
export function columnsInCurrency(study: Study, startRows: Float64Array | null): readonly TableColumn[] {
  return tableColumns(study, startRows).map((column) => {
    const symbol = unitInCurrency(column.unit, study);
    return symbol === column.unit.symbol ? column : { ...column, unit: { ...column.unit, symbol } };
  });
}

/** Writes the study's own front. */
export function writeOwnFront(
  folder: string,
  study: Study,
  front: TableRows,
  startRows: Float64Array | null,
): Promise<void> {
  return writeFront(folder, OWN, study, front, startRows);
}

/**
 * Writes a front under other limits and objectives beside the study's own: the columns of `front.csv`, in which
 * `feasible` and `on_front` are by these.
 * `startRows`: of a study that descends, the id of the first row of each start, ascending.
 */
export function writeOtherFront(
  folder: string,
  study: Study,
  front: TableRows,
  startRows: Float64Array | null,
): Promise<void> {
  return writeFront(folder, otherFrontFiles(study), study, front, startRows);
}

async function writeFront(
  folder: string,
  files: FrontFiles,
  study: Study,
  front: TableRows,
  startRows: Float64Array | null,
): Promise<void> {
  const columns = columnsInCurrency(study, startRows);
  // loaded here, so that no other command waits for it
  const { frontWorkbook } = await import('./front-xlsx.ts');
  await writeAtomically(folder, files.workbook, await frontWorkbook(study, columns, front, files.csv));
  await writeAtomically(folder, files.metadata, frontMetadata(study, columns, files.csv));
  const csvText = createCsvText(columns);
  // last: who finds the table finds what describes it
  await writeAtomically(folder, files.csv, csvText.header, csvText.lines(front, 0, front.count));
}
