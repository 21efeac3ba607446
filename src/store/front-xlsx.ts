import writeXlsxFile, { type Cell, type Row, type SheetData } from 'write-excel-file/node';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { TableColumn } from '../model/table-columns.ts';
import { numberFormat } from './number-format.ts';
import { withFixedTime } from './zip-time.ts';

/**
 * The front as a workbook (Office Open XML, ECMA-376), for spreadsheets of any locale: a number is stored as a number
 * and shown with the reader's own decimal mark, which a CSV cannot do. Three sheets: the rows, what each column is, and
 * what the study sought. Loading the packages takes a while: whoever imports this file does so when a front is written.
 */
export async function frontWorkbook(
  study: Study,
  columns: readonly TableColumn[],
  front: TableRows,
  csv: string,
): Promise<Uint8Array> {
  const count = Math.min(front.count, MOST_ROWS);
  const sheets = [
    {
      sheet: 'Front',
      data: frontSheet(columns, front, count),
      columns: columns.map(({ kind, texts }) => ({
        width: kind === 'text' ? textWidth(texts) : NUMBER_WIDTH,
      })),
      stickyRowsCount: 1,
      stickyColumnsCount: 1,
    },
    {
      sheet: 'Columns',
      data: columnsSheet(columns, csv),
      columns: [{ width: 36 }, { width: 36 }, { width: 12 }, { width: 100 }],
      stickyRowsCount: 1,
    },
    {
      sheet: 'Study',
      data: studySheet(study, front.count, count, csv),
      columns: [{ width: 16 }, { width: 100 }],
    },
  ];
  return withFixedTime(await writeXlsxFile(sheets).toBuffer());
}

/** A hundred columns of so many rows take a second and a half to write; spreadsheets are slow with more, too. */
export const MOST_ROWS = 2000;

const NUMBER_WIDTH = 13;
const LONGEST_SHOWN = 40;
/** Points: three lines and a half. */
const HEADING_HEIGHT = 46;

/** Characters that a cell can hold, by the limits that Microsoft gives for Excel. */
const LONGEST_TEXT = 32_767;

function frontSheet(columns: readonly TableColumn[], front: TableRows, count: number): SheetData {
  const rows: Row[] = Array.from({ length: count }, () => []);
  const cells = new Float64Array(count);
  for (const column of columns) {
    column.fill(front, 0, count, cells, 0);
    const format = numberFormat(cells);
    for (let i = 0; i < count; i++) rows[i]!.push(cellOf(column, cells[i]!, format));
  }
  return [
    columns.map(({ label, unit: { symbol } }) => ({
      ...heading(withUnit(label, symbol)),
      alignVertical: 'bottom',
      height: HEADING_HEIGHT,
    })),
    ...rows,
  ];
}

/**
 * A workbook has no number for infinity. `INF` stands there as a word, as in the CSV: sums and means leave it out, and a
 * sorted column has it after all numbers.
 */
function cellOf({ kind, texts }: TableColumn, value: number, format: string): Cell {
  if (kind === 'boolean') return value === 1;
  if (kind === 'text') return texts[value] === '' ? null : textCell(texts[value]!);
  if (Number.isNaN(value)) return null;
  if (!Number.isFinite(value)) return { ...textCell(value > 0 ? 'INF' : '-INF'), align: 'right' };
  return { value, type: Number, format };
}

function columnsSheet(columns: readonly TableColumn[], csv: string): SheetData {
  return [
    ['column', `column in ${csv}`, 'unit', 'meaning'].map(heading),
    ...columns.map(({ label, name, unit: { symbol }, meaning }) => [
      textCell(withUnit(label, symbol)),
      textCell(name),
      symbol === '' ? null : textCell(symbol),
      { ...textCell(meaning), wrap: true },
    ]),
  ];
}

function studySheet(study: Study, all: number, count: number, csv: string): SheetData {
  const lines: [string, string][] = [
    ['study', study.title],
    ['SHA-256', study.hash],
    ...study.objectives.map(({ sense, text }): [string, string] => ['objective', `${sense} ${text}`]),
    ...study.limits.map(({ text }): [string, string] => ['limit', text]),
    ['rows', count === all ? `all ${all} of the front` : `the first ${count} of ${all}; ${csv} holds all`],
    ['order', 'best in the first objective first'],
    ['empty cell', 'not applicable or not known'],
    ['INF', 'infinity, as a word: a workbook has no number for it. Sums and means leave it out'],
  ];
  return lines.map(([key, text]) => [heading(key), { ...textCell(text), wrap: true }]);
}

/** Its font is named: LibreOffice shows a bold one without name with serifs. */
function heading(text: string) {
  const font = { fontWeight: 'bold', fontFamily: 'Arial', fontSize: 10 } as const;
  return { ...textCell(text), ...font, wrap: true, alignVertical: 'top' } as const;
}

/**
 * A text that stays one: no reader takes such a cell for a formula, and its format is that of text, so that it is none
 * either after somebody has edited it.
 */
function textCell(text: string) {
  const short = text.slice(0, LONGEST_TEXT);
  // write-excel-file 4.1 looks texts up in a plain object, where these names stand for something else
  return { value: short in {} ? `${short} ` : short, type: String, format: '@' };
}

function withUnit(label: string, symbol: string): string {
  return symbol === '' ? label : `${label} (${symbol})`;
}

function textWidth(texts: readonly string[]): number {
  return Math.min(LONGEST_SHOWN, Math.max(NUMBER_WIDTH, ...texts.map(({ length }) => length + 1)));
}
