import type { ParquetWriter } from 'hyparquet-writer';
import { rowsIn, type Stretch, type TableRows } from '../model/rows.ts';
import type { TableColumn } from '../model/table-columns.ts';
import { createParquetLevels } from './parquet-levels.ts';
import { writeVarint } from './varint.ts';

/**
 * Rows as pages of Parquet, one a column: DATA_PAGE_V2, values plain, compressed with Zstandard. Made here, not by
 * hyparquet-writer (which writes the footer): it takes each value for anything that a column may hold, five times as long.
 * Each column is gone through once: values are put in place, and the page's bounds and empty cells found, in one loop.
 * Past 300 lines: there is a loop for each kind of column, compiled for what it sees.
 */
export interface ParquetPages {
  /** Page after page, in the order of the columns. */
  readonly bytes: Uint8Array;
  readonly rows: number;
  readonly columns: readonly ColumnPage[];
}

export type ColumnMetaData = NonNullable<ParquetWriter['row_groups'][number]['columns'][number]['meta_data']>;
export type Statistics = NonNullable<ColumnMetaData['statistics']>;

/** What the footer holds of a page. */
export type ColumnPage = Pick<
  ColumnMetaData,
  'total_compressed_size' | 'total_uncompressed_size' | 'num_values' | 'statistics'
>;

/** Numbers of thrift's PageHeader and of Parquet's enums. */
const DATA_PAGE_V2 = 3;
const PLAIN = 0;

/** Of thrift's compact protocol. */
const I32 = 5;
const STRUCT = 12;
const STOP = 0;

/** More than any header has. */
const LONGEST_HEADER = 64;

const LEAST_INT32 = -(2 ** 31);
const MOST_INT32 = 2 ** 31 - 1;

/** Makes pages of rows that follow one another, compressed by `zstd`. The bytes of some are good until the next are made. */
export function createParquetPages(
  columns: readonly TableColumn[],
  zstd: (bytes: Uint8Array) => Uint8Array,
): (stretches: readonly Stretch<TableRows>[]) => ParquetPages {
  const texts = columns.map(encodedTexts);
  const longest = Math.max(8, ...texts.flatMap(({ bytes }) => bytes.map((text) => text?.length ?? 0)));
  const levels = createParquetLevels();
  const found: Found = { values: 0, length: 0, min: 0, max: 0 };
  let cells = new Float64Array(0);
  /** 1 where a cell is not empty. */
  let present = new Uint8Array(0);
  /** The values of a column, as numbers, as integers and as bytes. */
  let numbers = new Float64Array(0);
  let integers = new Int32Array(0);
  let plain = new Uint8Array(0);
  let out = new Uint8Array(0);
  let end = 0;

  function makeRoom(count: number): void {
    if (cells.length !== count) {
      cells = new Float64Array(count);
      present = new Uint8Array(count);
    }
    if (plain.length >= count * longest) return;
    numbers = new Float64Array(Math.ceil((count * longest) / 8));
    integers = new Int32Array(numbers.buffer);
    plain = new Uint8Array(numbers.buffer);
  }

  function put(bytes: Uint8Array): void {
    if (end + bytes.length > out.length) {
      const larger = new Uint8Array(Math.ceil(LARGER * (end + bytes.length)));
      larger.set(out.subarray(0, end));
      out = larger;
    }
    out.set(bytes, end);
    end += bytes.length;
  }

  const header = new Uint8Array(LONGEST_HEADER);
  return (stretches) => {
    const count = rowsIn(stretches);
    makeRoom(count);
    end = 0;
    const pages = columns.map(({ kind, nullable, fill }, i): ColumnPage => {
      // numbers stand in the page as they are
      const into = kind === 'number' ? numbers : cells;
      let at = 0;
      for (const { rows, from, to } of stretches) {
        fill(rows, from, to, into, at);
        at += to - from;
      }
      if (kind === 'text') putTexts(cells, texts[i]!, plain, present, found);
      else if (kind === 'boolean') putFlags(cells, plain, found);
      else if (kind === 'integer') putIntegers(cells, integers, present, found);
      else putNumbers(numbers, count, present, found);
      const empty = count - found.values;
      if (empty > 0 && !nullable) throw new Error(`column ${columns[i]!.name} has empty cells`);
      const level = nullable ? levels.of(present, empty) : NONE;
      const values = zstd(plain.subarray(0, found.length));
      const sizes = {
        levels: level.length,
        whole: level.length + found.length,
        packed: level.length + values.length,
      };
      const head = header.subarray(0, writeHeader(header, { count, empty, ...sizes }));
      put(head);
      put(level);
      put(values);
      return {
        total_compressed_size: BigInt(head.length + sizes.packed),
        total_uncompressed_size: BigInt(head.length + sizes.whole),
        num_values: BigInt(count),
        statistics: statisticsOf(kind, found, empty, texts[i]!),
      };
    });
    return { bytes: out.subarray(0, end), rows: count, columns: pages };
  };
}

/** Pages of columns differ little in length from chunk to chunk. */
const LARGER = 1.5;

const NONE = new Uint8Array(0);

/** What one loop over a column finds. */
interface Found {
  /** Cells that are not empty. */
  values: number;
  /** Bytes that these take. */
  length: number;
  /** Of values, or of ranks of texts. */
  min: number;
  max: number;
}

// a loop each: they are compiled for what they see

/** The first `count` cells, in place: most columns have no empty cell, or nothing else, and are gone through once. */
function putNumbers(cells: Float64Array, count: number, present: Uint8Array, found: Found): void {
  let empty = 0;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const cell = cells[i]!;
    if (cell < min) min = cell;
    if (cell > max) max = cell;
    if (Number.isNaN(cell)) empty++;
  }
  if (empty === 0 || empty === count) present.fill(empty === 0 ? 1 : 0);
  else closeUp(cells, count, present);
  note(found, count - empty, 8 * (count - empty), min, max);
}

/** Moves cells that are not empty to where empty ones were. */
function closeUp(cells: Float64Array, count: number, present: Uint8Array): void {
  let at = 0;
  for (let i = 0; i < count; i++) {
    const cell = cells[i]!;
    const isEmpty = Number.isNaN(cell);
    present[i] = isEmpty ? 0 : 1;
    if (!isEmpty) cells[at++] = cell;
  }
}

function putIntegers(cells: Float64Array, into: Int32Array, present: Uint8Array, found: Found): void {
  let at = 0;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < cells.length; i++) {
    const cell = cells[i]!;
    const isEmpty = Number.isNaN(cell);
    present[i] = isEmpty ? 0 : 1;
    if (isEmpty) continue;
    into[at++] = cell;
    if (cell < min) min = cell;
    if (cell > max) max = cell;
  }
  // row ids, turns and layers: far below
  if (at > 0 && (min < LEAST_INT32 || max > MOST_INT32))
    throw new RangeError('an integer has more than 32 bits');
  note(found, at, 4 * at, min, max);
}

/** Eight a byte, the first lowest. */
function putFlags(cells: Float64Array, into: Uint8Array, found: Found): void {
  const length = Math.ceil(cells.length / 8);
  into.fill(0, 0, length);
  let set = 0;
  for (let i = 0; i < cells.length; i++) {
    if (cells[i] !== 1) continue;
    into[i >> 3]! |= 1 << (i & 7);
    set++;
  }
  note(found, cells.length, length, set === cells.length ? 1 : 0, set === 0 ? 0 : 1);
}

function putTexts(
  codes: Float64Array,
  { bytes, ranks }: EncodedTexts,
  into: Uint8Array,
  present: Uint8Array,
  found: Found,
): void {
  let end = 0;
  let values = 0;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (let from = 0, to = 0; from < codes.length; from = to) {
    const code = codes[from]!;
    to++;
    while (to < codes.length && codes[to] === code) to++;
    const text = bytes[code]!;
    present.fill(text === null ? 0 : 1, from, to);
    if (text === null) continue;
    end = repeat(text, to - from, into, end);
    values += to - from;
    const rank = ranks[code]!;
    if (rank < min) min = rank;
    if (rank > max) max = rank;
  }
  note(found, values, end, min, max);
}

/** Writes a text so often, from `at` on; where it ends. A column of words has long stretches of the same. */
function repeat(text: Uint8Array, times: number, into: Uint8Array, at: number): number {
  const end = at + times * text.length;
  for (let b = 0; b < text.length; b++) into[at + b] = text[b]!;
  for (let done = text.length; at + done < end; done *= 2) {
    into.copyWithin(at + done, at, at + Math.min(done, end - at - done));
  }
  return end;
}

function note(found: Found, values: number, length: number, min: number, max: number): void {
  found.values = values;
  found.length = length;
  found.min = min;
  found.max = max;
}

/** The texts of a column by their code, with each one's place in their order; null is the empty cell. */
interface EncodedTexts {
  /** Four bytes of length, and UTF-8: as they stand in a page. */
  readonly bytes: readonly (Uint8Array | null)[];
  readonly ranks: readonly number[];
  readonly byRank: readonly string[];
}

function encodedTexts({ texts }: TableColumn): EncodedTexts {
  const byRank = [...new Set(texts)].sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
  return {
    bytes: texts.map((text) => (text === '' ? null : withLength(Buffer.from(text)))),
    ranks: texts.map((text) => (text === '' ? Number.NaN : byRank.indexOf(text))),
    byRank,
  };
}

function withLength(text: Buffer): Uint8Array {
  const bytes = new Uint8Array(4 + text.length);
  new DataView(bytes.buffer).setUint32(0, text.length, true);
  bytes.set(text, 4);
  return bytes;
}

function statisticsOf(
  kind: TableColumn['kind'],
  { values, min, max }: Found,
  empty: number,
  { byRank }: EncodedTexts,
): Statistics {
  const null_count = BigInt(empty);
  if (values === 0) return { null_count };
  if (kind === 'text') return { min_value: byRank[min]!, max_value: byRank[max]!, null_count };
  if (kind === 'boolean') return { min_value: min === 1, max_value: max === 1, null_count };
  // the format wants zeros with the sign that excludes none of them
  return { min_value: min === 0 ? -0 : min, max_value: max === 0 ? 0 : max, null_count };
}

interface PageSizes {
  readonly count: number;
  readonly empty: number;
  /** Bytes of the levels, which are not compressed. */
  readonly levels: number;
  /** Levels and values. */
  readonly whole: number;
  /** The same, values compressed. */
  readonly packed: number;
}

/** The PageHeader of a DATA_PAGE_V2 in thrift's compact protocol; its length. */
function writeHeader(into: Uint8Array, { count, empty, levels, whole, packed }: PageSizes): number {
  let at = 0;
  const field = (skipped: number, type: number) => {
    into[at++] = (skipped << 4) | type;
  };
  const int = (skipped: number, value: number) => {
    field(skipped, I32);
    // never negative, so that zigzag is twice the value
    at = writeVarint(into, at, 2 * value);
  };
  int(1, DATA_PAGE_V2);
  int(1, whole);
  int(1, packed);
  field(5, STRUCT);
  int(1, count);
  int(1, empty);
  int(1, count);
  int(1, PLAIN);
  int(1, levels);
  // no levels of repetition; that values are compressed is taken for granted
  int(1, 0);
  into[at++] = STOP;
  into[at++] = STOP;
  return at;
}
