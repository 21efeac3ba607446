import type { Stretch, TableRows } from '../model/rows.ts';
import type { TableColumn } from '../model/table-columns.ts';
import { createCsvLines } from './csv-lines.ts';

/**
 * Tables as CSV (RFC 4180): UTF-8, a header row, fields quoted when they hold a comma, a quote or a line
 * break. Lines end in LF alone: the last column is `true` or `false`, which a CR would spoil for line tools,
 * and every reader takes LF; the metadata states it. Numbers are the shortest text that reads back exactly,
 * infinity is INF and an empty cell has no text at all.
 */
export interface CsvText {
  readonly header: string;
  /** Rows [from, to), each with its line end, in UTF-8. The next call writes over it. */
  lines(rows: TableRows, from: number, to: number): Uint8Array;
  /** Likewise of stretches that follow one another. */
  linesOf(stretches: readonly Stretch<TableRows>[]): Uint8Array;
}

const NEEDS_QUOTES = /[",\r\n]/;

/**
 * What spreadsheets take for a formula (CWE-1236): it starts, perhaps after blanks and quotes, with = + - @ or their
 * full-width forms, or it starts with a tab or a line break. A cell may also start inside a field: where a spreadsheet
 * splits at something else than commas, it does not take a quote in the middle of its cell for one.
 */
const RUNS = /(?<=^|[;\t|,\r\n])(?=[\s"]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])|^(?=[\t\r\n])/g;

/** A field from text. What a spreadsheet would run gets an apostrophe before it, which makes it text. */
export function csvField(text: string): string {
  const harmless = text.replace(RUNS, "'");
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

export function csvNumber(value: number): string {
  if (Number.isFinite(value)) return String(value);
  if (Number.isNaN(value)) return '';
  return value > 0 ? 'INF' : '-INF';
}

const FLAGS = ['false', 'true'];

/**
 * Numbers become text in WebAssembly (see csv-lines), to the byte what `String` makes of them, in a third of the time that
 * V8 takes. A cell that is what stands above it is copied: in a grid a column often repeats.
 */
export function createCsvText(columns: readonly TableColumn[]): CsvText {
  const csvLines = createCsvLines(columns.map(wordsOf));
  const linesOf = (stretches: readonly Stretch<TableRows>[]) => {
    csvLines.begin();
    for (const { rows, from, to } of stretches) {
      for (let start = from; start < to; start += csvLines.stride) {
        const end = Math.min(to, start + csvLines.stride);
        for (let index = 0; index < columns.length; index++) {
          columns[index]!.fill(rows, start, end, csvLines.cells(index), 1);
        }
        csvLines.write(end - start);
      }
    }
    return csvLines.bytes();
  };
  return {
    header: `${columns.map(({ name }) => csvField(name)).join(',')}\n`,
    lines: (rows, from, to) => linesOf([{ rows, from, to }]),
    linesOf,
  };
}

/** The texts of a column by their code; null for numbers. */
function wordsOf({ kind, texts }: TableColumn): readonly string[] | null {
  if (kind === 'boolean') return FLAGS;
  return kind === 'text' ? texts.map(csvField) : null;
}
