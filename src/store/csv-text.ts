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
  /** Rows [from, to), each with its line end, in UTF-8. The next call writes over it. */
  lines(rows: TableRows, from: number, to: number): Uint8Array;
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

const COMMA = 44;
const LINE_FEED = 10;

/**
 * Bytes are set one by one: strings of whole lines, made piece by piece and then encoded, take twice as long and leave
 * as much again to be collected.
 */
export function createCsvText(columns: readonly TableColumn[]): CsvText {
  const width = columns.length;
  const cells = new Float64Array(STRIDE);
  /** Of each cell the bytes of its text, one a character, row after row. */
  const texts: string[] = new Array(STRIDE * width).fill('');
  const fields = columns.map((column) =>
    column.kind === 'boolean'
      ? FLAGS
      : column.kind === 'text'
        ? column.texts.map((text) => bytesAsText(csvField(text)))
        : null,
  );
  let bytes = new Uint8Array(0);

  /** Makes the texts of a column; how many bytes they are. */
  function fill(column: number, count: number): number {
    let length = 0;
    const words = fields[column]!;
    // In a grid a column often repeats, and making a number's text is what writing a table costs.
    let value = Number.NaN;
    let text = '';
    for (let i = 0; i < count; i++) {
      if (words) {
        text = words[cells[i]!]!;
      } else if (cells[i]! !== value) {
        value = cells[i]!;
        text = csvNumber(value);
      }
      texts[i * width + column] = text;
      length += text.length;
    }
    return length;
  }

  function makeRoom(length: number, used: number): void {
    if (length <= bytes.length) return;
    const larger = new Uint8Array(Math.max(length, 2 * bytes.length));
    larger.set(bytes.subarray(0, used));
    bytes = larger;
  }

  return {
    header: `${columns.map(({ name }) => csvField(name)).join(',')}\n`,
    lines(rows, from, to) {
      let at = 0;
      for (let start = from; start < to; start += STRIDE) {
        const count = Math.min(STRIDE, to - start);
        let length = count * width;
        columns.forEach((column, index) => {
          column.fill(rows, start, start + count, cells, 0);
          length += fill(index, count);
        });
        makeRoom(at + length, at);
        for (let cell = 0; cell < count * width; cell++) {
          const text = texts[cell]!;
          for (let k = 0; k < text.length; k++) bytes[at++] = text.charCodeAt(k);
          bytes[at++] = (cell + 1) % width === 0 ? LINE_FEED : COMMA;
        }
      }
      return bytes.subarray(0, at);
    },
  };
}

function bytesAsText(text: string): string {
  return String.fromCharCode(...new TextEncoder().encode(text));
}
