import type { TableRows } from '../model/rows.ts';
import type { TableColumn } from '../model/table-columns.ts';

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

/** Rows whose cells are made at a time: few enough that they stay in the processor's cache. */
const STRIDE = 64;

const FLAGS = ['false', 'true'];

const COMMA = 44;
const LINE_FEED = 10;

/** Bytes of the longest number, -0.0000012345678901234567: from 1e-6 on zeros are written out. */
const LONGEST = 25;

/**
 * Numbers become text many at a time, as a JSON array: the same text as `String` makes, which however keeps each in V8's
 * cache of number strings, in old space, where a million rows make the collector mark everything thirty times. From there
 * bytes are set one by one: strings of whole lines, made piece by piece and then encoded, take twice as long.
 */
export function createCsvText(columns: readonly TableColumn[]): CsvText {
  const width = columns.length;
  const words = columns.map(wordsOf);
  const longest = words.reduce((sum, texts) => sum + 1 + longestOf(texts), 0);
  const column = new Float64Array(STRIDE);
  /** Row after row; first the row above them. */
  const cells = new Float64Array((1 + STRIDE) * width);
  /** The numbers that need a text: finite, and not what stands above. */
  const fresh: number[] = [];
  const digits = Buffer.alloc(STRIDE * width * (LONGEST + 1) + 2);
  /** Where in `bytes` the last text of each column stands. */
  const starts = new Uint32Array(width);
  const ends = new Uint32Array(width);
  let bytes = new Uint8Array(0);

  function makeDigits(count: number): void {
    let many = 0;
    for (let cell = width, index = 0; cell < (1 + count) * width; cell++) {
      const value = cells[cell]!;
      if (words[index] === null && value !== cells[cell - width]! && Number.isFinite(value)) {
        if (many < fresh.length) fresh[many] = value;
        else fresh.push(value);
        many++;
      }
      index = index + 1 === width ? 0 : index + 1;
    }
    fresh.length = many;
    // each with a comma after it: the last bracket becomes one
    const length = digits.write(JSON.stringify(fresh), 'latin1');
    digits[length - 1] = COMMA;
  }

  /** Writes rows [0, count) of the cells from `at` on; where they end. */
  function write(count: number, at: number): number {
    let end = at;
    let digit = 1;
    for (let cell = width, index = 0; cell < (1 + count) * width; cell++) {
      const value = cells[cell]!;
      const start = end;
      if (value === cells[cell - width]!) {
        // in a grid a column often repeats, and making a number's text is what writing a table costs
        for (let k = starts[index]!; k < ends[index]!; k++) bytes[end++] = bytes[k]!;
      } else if (words[index] !== null || !Number.isFinite(value)) {
        const texts = words[index] ?? null;
        const text = texts === null ? csvNumber(value) : texts[value]!;
        for (let k = 0; k < text.length; k++) bytes[end++] = text.charCodeAt(k);
      } else {
        for (; digits[digit] !== COMMA; digit++) bytes[end++] = digits[digit]!;
        digit++;
      }
      starts[index] = start;
      ends[index] = end;
      index = index + 1 === width ? 0 : index + 1;
      bytes[end++] = index === 0 ? LINE_FEED : COMMA;
    }
    return end;
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
      // above the first row stands nothing
      cells.fill(Number.NaN, 0, width);
      for (let start = from; start < to; start += STRIDE) {
        const count = Math.min(STRIDE, to - start);
        for (let index = 0; index < width; index++) {
          columns[index]!.fill(rows, start, start + count, column, 0);
          for (let i = 0; i < count; i++) cells[(1 + i) * width + index] = column[i]!;
        }
        makeRoom(at + count * longest, at);
        makeDigits(count);
        at = write(count, at);
        cells.copyWithin(0, count * width, (1 + count) * width);
      }
      return bytes.subarray(0, at);
    },
  };
}

/** The texts of a column by their code, a character a byte; null for numbers. */
function wordsOf({ kind, texts }: TableColumn): readonly string[] | null {
  if (kind === 'boolean') return FLAGS;
  return kind === 'text' ? texts.map((text) => bytesAsText(csvField(text))) : null;
}

function longestOf(texts: readonly string[] | null): number {
  return texts === null ? LONGEST : Math.max(0, ...texts.map(({ length }) => length));
}

function bytesAsText(text: string): string {
  return String.fromCharCode(...new TextEncoder().encode(text));
}
