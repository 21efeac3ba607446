import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer';
import type { Study } from '../model/study.ts';
import type { TableColumn } from '../model/table-columns.ts';
import type { ColumnMetaData, ColumnPage, ParquetPages, Statistics } from './parquet-pages.ts';
import { CHUNKS_A_GROUP } from './table-cuts.ts';

/**
 * Tables as Parquet: the same columns as the CSV, numbers as doubles or 32-bit integers, null for an empty cell, text as
 * it is (nothing runs it here). Threads make pages (parquet-pages.ts), one a column and chunk of rows; whoever writes the
 * file puts pages of several chunks together to a row group, here. So row groups are large, as readers like them, and what a
 * thread holds is small.
 *
 * Pages are compressed with Zstandard, and values stand in them as they are: a dictionary takes longer to make, finds
 * little that Zstandard does not find, and would tie the pages of a row group to each other.
 */
type RowGroup = ParquetWriter['row_groups'][number];

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

/** Of values, and of the levels that say which cells are empty. */
const ENCODINGS = ['PLAIN', 'RLE'] as const;

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
      encodings: [...ENCODINGS],
      path_in_schema: [name],
      codec: 'ZSTD',
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
