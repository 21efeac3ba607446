import { ByteWriter, type ColumnSource, ParquetWriter, type SchemaElement } from 'hyparquet-writer';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { TableColumn } from '../model/table-columns.ts';
import { CHUNKS_A_GROUP } from './table-cuts.ts';

/**
 * Tables as Parquet: the same columns as the CSV, numbers as doubles or 32-bit integers, null for an empty cell, text as
 * it is (nothing runs it here). Threads make pages, one a column and chunk of rows; whoever writes the file puts pages of
 * several chunks together to a row group (past 300 lines: both ends of one layout). So row groups are large, as readers like them, and what a thread holds is small.
 *
 * Pages are compressed with Zstandard, and values stand in them as they are: a dictionary takes longer to make, finds
 * little that Zstandard does not find, and would tie the pages of a row group to each other.
 */
export interface ParquetPages {
  /** Page after page, in the order of the columns. */
  readonly bytes: Uint8Array;
  readonly rows: number;
  readonly columns: readonly ColumnPage[];
}

/** What the footer holds of a page. */
type ColumnPage = Pick<
  ColumnMetaData,
  'total_compressed_size' | 'total_uncompressed_size' | 'num_values' | 'encodings' | 'statistics'
>;

type RowGroup = ParquetWriter['row_groups'][number];
type ColumnMetaData = NonNullable<RowGroup['columns'][number]['meta_data']>;
type Statistics = NonNullable<ColumnMetaData['statistics']>;

const CODEC = 'ZSTD';

/** Marks the beginning of a file, and its end. */
const MAGIC_LENGTH = 4;

/** Makes pages of rows, compressed by `zstd`. The bytes of some are good until the next are made. */
export function createParquetPages(
  columns: readonly TableColumn[],
  zstd: (bytes: Uint8Array) => Uint8Array,
): (rows: TableRows) => ParquetPages {
  const writer = new ByteWriter();
  // texts are given as bytes, as which they stand in pages: encoding each cell anew takes a fifth of the time
  const schema = schemaOf(columns).map(({ converted_type, ...element }) => element);
  const texts = columns.map(encodedTexts);
  return (rows) => {
    const cells = new Float64Array(rows.count);
    const statistics: Statistics[] = [];
    writer.index = 0;
    writer.offset = 0;
    const parquet = new ParquetWriter({ writer, schema, codec: CODEC, compressors: { [CODEC]: zstd } });
    const columnData = columns.map(
      (column, i): ColumnSource => ({
        name: column.name,
        ...(column.kind === 'boolean' ? {} : { encoding: 'PLAIN' }),
        statistics: false,
        // made when its turn comes (the first one twice): hyparquet-writer 0.17 copies it before it takes the next
        get data() {
          column.fill(rows, 0, rows.count, cells, 0);
          statistics[i] ??= statisticsOf(column.kind, cells, texts[i]!);
          return dataOf(column.kind, cells, texts[i]!);
        },
        // its pages are few: an index of them would only be larger
        offsetIndex: false,
      }),
    );
    // 0: one page a column, without weighing each cell to find where the next should begin
    parquet.write({ columnData, rowGroupSize: rows.count, pageSize: 0 });
    return {
      bytes: writer.getBytes().subarray(MAGIC_LENGTH),
      rows: rows.count,
      columns: parquet.row_groups[0]!.columns.map(({ meta_data }, i): ColumnPage => {
        const { total_compressed_size, total_uncompressed_size, num_values, encodings } = meta_data!;
        const found = statistics[i]!;
        return { total_compressed_size, total_uncompressed_size, num_values, encodings, statistics: found };
      }),
    };
  };
}

/** The texts of a column by their code, with each one's place in their order; null is the empty cell. */
interface EncodedTexts {
  readonly bytes: readonly (Uint8Array | null)[];
  readonly ranks: readonly number[];
  readonly byRank: readonly string[];
}

function encodedTexts({ texts }: TableColumn): EncodedTexts {
  const byRank = [...new Set(texts)].sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
  return {
    bytes: texts.map((text) => (text === '' ? null : Buffer.from(text))),
    ranks: texts.map((text) => (text === '' ? Number.NaN : byRank.indexOf(text))),
    byRank,
  };
}

/** What the package finds, too, in a third of the time of a page: it compares numbers as it would anything. */
function statisticsOf(
  kind: TableColumn['kind'],
  cells: Float64Array,
  { ranks, byRank }: EncodedTexts,
): Statistics {
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  let empty = 0;
  for (let i = 0; i < cells.length; i++) {
    const cell = kind === 'text' ? ranks[cells[i]!]! : cells[i]!;
    if (Number.isNaN(cell)) empty++;
    if (cell < min) min = cell;
    if (cell > max) max = cell;
  }
  const null_count = BigInt(empty);
  if (empty === cells.length) return { null_count };
  if (kind === 'text') return { min_value: byRank[min]!, max_value: byRank[max]!, null_count };
  if (kind === 'boolean') return { min_value: min === 1, max_value: max === 1, null_count };
  // the format wants zeros with the sign that excludes none of them
  return { min_value: min === 0 ? -0 : min, max_value: max === 0 ? 0 : max, null_count };
}

export interface ParquetFile {
  /** The bytes with which the file begins. */
  readonly head: Uint8Array;
  /** Takes the next pages; what is to be written once a row group is full, each piece before the next is taken. */
  add(pages: ParquetPages): Iterable<Uint8Array>;
  /** The bytes with which it ends. */
  end(): Iterable<Uint8Array>;
}

/** What the file says of itself stands in its key-value metadata: `eddylift.title`, `eddylift.study` and `eddylift.columns`. */
export function createParquetFile(
  { title, hash }: Pick<Study, 'title' | 'hash'>,
  columns: readonly TableColumn[],
): ParquetFile {
  const writer = new ByteWriter();
  const schema = schemaOf(columns);
  const parquet = new ParquetWriter({
    writer,
    schema,
    createdBy: 'eddylift',
    kvMetadata: [
      { key: 'eddylift.title', value: title },
      { key: 'eddylift.study', value: hash },
      { key: 'eddylift.columns', value: JSON.stringify(columns.map(describe)) },
    ],
  });
  const head = writer.getBytes().slice();
  let pending: ParquetPages[] = [];
  // memory for pages and for a column, used again and again: left to the collector, several row groups would wait for it
  const held = Array.from({ length: CHUNKS_A_GROUP }, createStore);
  const column = createStore();

  function* group(): Generator<Uint8Array> {
    const full = pending;
    pending = [];
    if (full.length === 0) return;
    const starts = full.map(() => 0);
    const chunks: RowGroup['columns'] = [];
    for (let i = 0; i < columns.length; i++) {
      const pieces = full.map(({ bytes, columns: pages }, k) => {
        const from = starts[k]!;
        starts[k] = from + Number(pages[i]!.total_compressed_size);
        return bytes.subarray(from, starts[k]);
      });
      const { type } = schema[1 + i]!;
      const pages = full.map((each) => each.columns[i]!);
      chunks.push(chunkOf(columns[i]!.name, type!, pages, writer.offset));
      const bytes = column.hold(pieces);
      // the writer's `offset` goes on counting, as its file writer does: positions in the footer need it
      writer.offset += bytes.length;
      yield bytes;
    }
    const rows = BigInt(full.reduce((sum, each) => sum + each.rows, 0));
    parquet.num_rows += rows;
    parquet.row_groups.push({
      columns: chunks,
      num_rows: rows,
      total_byte_size: total(chunks.map(({ meta_data }) => meta_data!.total_uncompressed_size)),
      total_compressed_size: total(chunks.map(({ meta_data }) => meta_data!.total_compressed_size)),
    });
  }

  return {
    head,
    add(pages) {
      // their bytes are somebody else's and will be written over
      pending.push({ ...pages, bytes: held[pending.length]!.hold([pages.bytes]) });
      return pending.length < CHUNKS_A_GROUP ? [] : group();
    },
    *end() {
      yield* group();
      writer.index = 0;
      parquet.finish();
      yield writer.getBytes().slice();
    },
  };
}

/** Memory for bytes one after another, good until the next are held. */
interface ByteStore {
  hold(pieces: readonly Uint8Array[]): Uint8Array;
}

function createStore(): ByteStore {
  let room = new Uint8Array(0);
  return {
    hold(pieces) {
      const length = pieces.reduce((sum, piece) => sum + piece.length, 0);
      if (length > room.length) room = new Uint8Array(Math.ceil(length * SPARE));
      let at = 0;
      for (const piece of pieces) {
        room.set(piece, at);
        at += piece.length;
      }
      return room.subarray(0, length);
    },
  };
}

/** Chunks differ little in length. */
const SPARE = 1.1;

/** The pages of a column that follow one another from `offset` on. */
function chunkOf(
  name: string,
  type: ColumnMetaData['type'],
  pages: readonly ColumnPage[],
  offset: number,
): RowGroup['columns'][number] {
  const start = BigInt(offset);
  return {
    file_offset: start,
    meta_data: {
      type,
      encodings: pages[0]!.encodings,
      path_in_schema: [name],
      codec: CODEC,
      num_values: total(pages.map(({ num_values }) => num_values)),
      total_uncompressed_size: total(pages.map((page) => page.total_uncompressed_size)),
      total_compressed_size: total(pages.map((page) => page.total_compressed_size)),
      data_page_offset: start,
      statistics: pages.map(({ statistics }) => statistics!).reduce(joined),
    },
  };
}

function total(sizes: readonly bigint[]): bigint {
  return sizes.reduce((sum, size) => sum + size, 0n);
}

function joined(a: Statistics, b: Statistics): Statistics {
  const min_value = outer(a.min_value, b.min_value, -1);
  const max_value = outer(a.max_value, b.max_value, 1);
  return {
    ...(min_value === undefined || max_value === undefined ? {} : { min_value, max_value }),
    null_count: a.null_count! + b.null_count!,
  };
}

type Bound = Statistics['min_value'] | undefined;

/** The lesser bound, or the greater, of two; texts by the bytes of their UTF-8, as the format orders them. */
function outer(a: Bound, b: Bound, sign: -1 | 1): Bound {
  if (a === undefined || b === undefined) return a ?? b;
  const isTexts = typeof a === 'string' && typeof b === 'string';
  const order = isTexts ? Buffer.compare(Buffer.from(a), Buffer.from(b)) : Number(a > b) - Number(a < b);
  return order * sign < 0 ? b : a;
}

const TYPES: Readonly<Record<TableColumn['kind'], Omit<SchemaElement, 'name'>>> = {
  number: { type: 'DOUBLE' },
  // Row ids, turns and layers: far below 2^31; the writer throws beyond.
  integer: { type: 'INT32' },
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  boolean: { type: 'BOOLEAN' },
};

function schemaOf(columns: readonly TableColumn[]): SchemaElement[] {
  return [
    { name: 'root', num_children: columns.length },
    ...columns.map(
      ({ name, kind, nullable }): SchemaElement => ({
        name,
        ...TYPES[kind],
        repetition_type: nullable ? 'OPTIONAL' : 'REQUIRED',
      }),
    ),
  ];
}

function describe({ name, label, unit, meaning }: TableColumn): Record<string, string> {
  return { name, label, unit: unit.symbol, meaning };
}

function dataOf(
  kind: TableColumn['kind'],
  cells: Float64Array,
  { bytes }: EncodedTexts,
): ColumnSource['data'] {
  if (kind === 'boolean') return flagsOf(cells);
  if (kind === 'text') return textsOf(cells, bytes);
  if (hasEmpty(cells)) return withHoles(cells);
  return kind === 'integer' ? Int32Array.from(cells) : cells;
}

function hasEmpty(cells: Float64Array): boolean {
  for (let i = 0; i < cells.length; i++) if (Number.isNaN(cells[i]!)) return true;
  return false;
}

// a loop each: a callback made anew for every column would be compiled anew for every column

function flagsOf(cells: Float64Array): boolean[] {
  const flags = new Array<boolean>(cells.length);
  for (let i = 0; i < cells.length; i++) flags[i] = cells[i] === 1;
  return flags;
}

function textsOf(codes: Float64Array, texts: EncodedTexts['bytes']): (Uint8Array | null)[] {
  const cells = new Array<Uint8Array | null>(codes.length);
  for (let i = 0; i < codes.length; i++) cells[i] = texts[codes[i]!]!;
  return cells;
}

/** Holes where cells are empty: such an array keeps its numbers as they are, one with nulls a box for each. */
function withHoles(cells: Float64Array): number[] {
  const values = new Array<number>(cells.length);
  for (let i = 0; i < cells.length; i++) if (!Number.isNaN(cells[i]!)) values[i] = cells[i]!;
  return values;
}
