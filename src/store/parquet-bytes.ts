import { ByteWriter, type ColumnSource, ParquetWriter, type SchemaElement } from 'hyparquet-writer';
import type { TableRows } from '../model/rows.ts';
import type { TableColumn } from '../model/table-columns.ts';

/**
 * Tables as Parquet, row group by row group: the same columns as the CSV, numbers as doubles or 32-bit integers, null
 * for an empty cell, text as it is (nothing runs it here). A row group is made of its rows alone, on any thread, as if
 * it stood at the head of a file; whoever writes the file moves it to its place.
 */
export interface ParquetGroup {
  readonly bytes: Uint8Array;
  readonly rows: number;
  /** What the footer holds of it, for offsets counted from `bytes`. */
  readonly group: RowGroup;
}

type RowGroup = ParquetWriter['row_groups'][number];

/** Marks the beginning of a file, and its end. */
const MAGIC_LENGTH = 4;

/** Makes row groups of rows. The bytes of one are good until the next is made. */
export function createParquetGroups(columns: readonly TableColumn[]): (rows: TableRows) => ParquetGroup {
  const writer = new ByteWriter();
  return (rows) => {
    const cells = new Float64Array(rows.count);
    writer.index = 0;
    writer.offset = 0;
    const parquet = openParquet(writer, columns);
    const columnData = columns.map(
      (column): ColumnSource => ({
        name: column.name,
        // made when its turn comes (the first one twice): hyparquet-writer 0.17 copies it before it takes the next
        get data() {
          column.fill(rows, 0, rows.count, cells, 0);
          return dataOf(column, cells);
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
      group: moved(parquet.row_groups[0]!, -MAGIC_LENGTH),
    };
  };
}

export interface ParquetFile {
  /** The bytes with which the file begins. */
  readonly head: Uint8Array;
  /** Takes a row group whose bytes are written next. */
  add(group: ParquetGroup): void;
  /** The bytes with which it ends. */
  tail(): Uint8Array;
}

export function createParquetFile(columns: readonly TableColumn[]): ParquetFile {
  const writer = new ByteWriter();
  const parquet = openParquet(writer, columns);
  const head = writer.getBytes().slice();
  // the writer's `offset` goes on counting, as its file writer does: positions in the footer need it
  writer.index = 0;
  return {
    head,
    add({ bytes, rows, group }) {
      parquet.row_groups.push(moved(group, writer.offset));
      parquet.num_rows += BigInt(rows);
      writer.offset += bytes.length;
    },
    tail() {
      parquet.finish();
      return writer.getBytes().slice();
    },
  };
}

function openParquet(writer: ByteWriter, columns: readonly TableColumn[]): ParquetWriter {
  return new ParquetWriter({
    writer,
    schema: schemaOf(columns),
    createdBy: 'eddylift',
    kvMetadata: [{ key: 'eddylift.columns', value: JSON.stringify(columns.map(describe)) }],
  });
}

/** A row group whose bytes stand `by` bytes farther on. */
function moved(group: RowGroup, by: number): RowGroup {
  const shift = BigInt(by);
  return {
    ...group,
    columns: group.columns.map(({ file_offset, meta_data, ...chunk }) => {
      const { data_page_offset, dictionary_page_offset, ...rest } = meta_data!;
      return {
        ...chunk,
        file_offset: file_offset + shift,
        meta_data: {
          ...rest,
          data_page_offset: data_page_offset + shift,
          ...(dictionary_page_offset === undefined
            ? {}
            : { dictionary_page_offset: dictionary_page_offset + shift }),
        },
      };
    }),
  };
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

function describe({ name, unit, meaning }: TableColumn): Record<string, string> {
  return { name, unit: unit.symbol, meaning };
}

function dataOf({ kind, texts }: TableColumn, cells: Float64Array): ColumnSource['data'] {
  if (kind === 'boolean') return flagsOf(cells);
  if (kind === 'text') return textsOf(cells, texts);
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

function textsOf(codes: Float64Array, texts: readonly string[]): (string | null)[] {
  const cells = new Array<string | null>(codes.length);
  for (let i = 0; i < codes.length; i++) cells[i] = texts[codes[i]!] || null;
  return cells;
}

/** Holes where cells are empty: such an array keeps its numbers as they are, one with nulls a box for each. */
function withHoles(cells: Float64Array): number[] {
  const values = new Array<number>(cells.length);
  for (let i = 0; i < cells.length; i++) if (!Number.isNaN(cells[i]!)) values[i] = cells[i]!;
  return values;
}
