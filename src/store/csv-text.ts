import type { TableRows } from '../model/rows.ts';
import type { TableColumn } from '../model/table-columns.ts';

/**
 * Tables as CSV (RFC 4180): UTF-8, a header row, fields quoted when they hold a comma, a quote or a line
 * break. Lines end in LF alone: the last column is `true` or `false`, which a CR would spoil for line tools,
 * and every reader takes LF; the metadata says so. Numbers are the shortest text that reads back exactly,
 * infinity is INF and an empty cell has no text at all.
 */
export interface CsvText {
  readonly header: string;
  /** Rows [from, to), each with its line end. */
  lines(rows: TableRows, from: number, to: number): string;
}

const NEEDS_QUOTES = /[",\r\n]/;

/**
 * What spreadsheets take for a formula (CWE-1236): it starts, perhaps after blanks, with = + - @ or their
 * full-width forms, or it starts with a tab or a line break.
 */
const RUNS = /^(?:\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r\n])/;

/** A field from text. What a spreadsheet would run gets an apostrophe in front, which makes it text. */
export function csvField(text: string): string {
  const harmless = RUNS.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

export function csvNumber(value: number): string {
  if (Number.isFinite(value)) return String(value);
  if (Number.isNaN(value)) return '';
  return value > 0 ? 'INF' : '-INF';
}

/** Rows whose cells are made at a time: few enough that they stay in the processor's cache. */
const STRIDE = 256;

const FLAGS = ['false', 'true'];

export function createCsvText(columns: readonly TableColumn[]): CsvText {
  const last = columns.length - 1;
  const cells = new Float64Array(STRIDE);
  const lines: string[] = new Array(STRIDE);
  const fields = columns.map((column) =>
    column.kind === 'boolean' ? FLAGS : column.kind === 'text' ? column.texts.map(csvField) : null,
  );

  function append(column: number, count: number): void {
    const end = column === last ? '\n' : ',';
    const texts = fields[column]!;
    if (texts) {
      for (let i = 0; i < count; i++) lines[i] += texts[cells[i]!]! + end;
      return;
    }
    // In a grid a column often repeats, and making a number's text is what writing a table costs.
    let value = Number.NaN;
    let text = end;
    for (let i = 0; i < count; i++) {
      if (cells[i]! !== value) {
        value = cells[i]!;
        text = csvNumber(value) + end;
      }
      lines[i] += text;
    }
  }

  return {
    header: `${columns.map(({ name }) => csvField(name)).join(',')}\n`,
    lines(rows, from, to) {
      let text = '';
      for (let start = from; start < to; start += STRIDE) {
        const count = Math.min(STRIDE, to - start);
        lines.fill('', 0, count);
        columns.forEach((column, index) => {
          column.fill(rows, start, start + count, cells, 0);
          append(index, count);
        });
        for (let i = 0; i < count; i++) text += lines[i];
      }
      return text;
    },
  };
}
