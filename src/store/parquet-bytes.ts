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
  /** What the footer says of it, for offsets counted from `bytes`. */
  readonly group: RowGroup;
}

type RowGroup = ParquetWriter['row_groups'][number];

/** Marks the beginning of a file, and its end. */
const MAGIC_LENGTH = 4;

/** The rows as one row group. */
export function toParquetGroup(rows: TableRows, columns: readonly TableColumn[]): ParquetGroup {
  const { writer, parquet } = openWriter(columns);
  const columnData = columns.map((column): ColumnSource => {
    const cells = new Float64Array(rows.count);
    column.fill(rows, 0, rows.count, cells, 0);
    // its pages are few: an index of them would only be larger
    return { name: column.name, data: dataOf(column, cells), offsetIndex: false };
  });
  parquet.write({ columnData, rowGroupSize: rows.count });
  return {
    bytes: writer.getBytes().slice(MAGIC_LENGTH),
    rows: rows.count,
    group: moved(parquet.row_groups[0]!, -MAGIC_LENGTH),
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
  const { writer, parquet } = openWriter(columns);
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

function openWriter(columns: readonly TableColumn[]): { writer: ByteWriter; parquet: ParquetWriter } {
  const writer = new ByteWriter();
  const parquet = new ParquetWriter({
    writer,
    schema: schemaOf(columns),
    createdBy: 'eddylift',
    kvMetadata: [{ key: 'eddylift.columns', value: JSON.stringify(columns.map(describe)) }],
  });
  return { writer, parquet };
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
  if (kind === 'boolean') return mapped(cells, (cell) => cell === 1);
  if (kind === 'text') return mapped(cells, (code) => texts[code] || null);
  if (hasEmpty(cells)) return mapped(cells, (cell) => (Number.isNaN(cell) ? null : cell));
  return kind === 'integer' ? Int32Array.from(cells) : cells;
}

function hasEmpty(cells: Float64Array): boolean {
  for (let i = 0; i < cells.length; i++) if (Number.isNaN(cells[i]!)) return true;
  return false;
}

/** `Array.from` of a typed array goes through its iterator and takes several times as long. */
function mapped<T>(cells: Float64Array, of: (cell: number) => T): T[] {
  const all = new Array<T>(cells.length);
  for (let i = 0; i < cells.length; i++) all[i] = of(cells[i]!);
  return all;
}
