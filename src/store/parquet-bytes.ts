import { ByteWriter, type ColumnSource, ParquetWriter, type SchemaElement } from 'hyparquet-writer';
import type { TableRows } from '../model/rows.ts';
import type { TableColumn } from '../model/table-columns.ts';

/**
 * Tables as Parquet, row group by row group: the same columns as the CSV, numbers as doubles or 32-bit
 * integers, null for an empty cell, text as it is (nothing runs it here). Row groups are cut by row number, so the
 * bytes do not depend on how the rows were batched.
 */
export interface ParquetBytes {
  /** Takes rows in table order; returns the bytes that are due, often none. */
  add(rows: TableRows): Uint8Array;
  /** The remaining rows and the footer. */
  end(): Uint8Array;
}

/** Some 10 MB a group with 50 columns: small to hold, large enough for a reader to skip by statistics. */
const GROUP_ROWS = 20_000;

export function createParquetBytes(columns: readonly TableColumn[]): ParquetBytes {
  const writer = new ByteWriter();
  const parquet = new ParquetWriter({
    writer,
    schema: schemaOf(columns),
    createdBy: 'eddylift',
    kvMetadata: [{ key: 'eddylift.columns', value: JSON.stringify(columns.map(describe)) }],
  });
  const cells = columns.map(() => new Float64Array(GROUP_ROWS));
  let waiting = 0;

  function writeGroup(): void {
    if (waiting === 0) return;
    const columnData = columns.map(
      (column, index): ColumnSource => ({
        name: column.name,
        data: dataOf(column, cells[index]!.subarray(0, waiting)),
      }),
    );
    parquet.write({ columnData, rowGroupSize: GROUP_ROWS });
    waiting = 0;
  }

  function takeBytes(): Uint8Array {
    const bytes = writer.getBytes().slice();
    // The writer's `offset` goes on counting, as its file writer does: positions in the footer need it.
    writer.index = 0;
    return bytes;
  }

  return {
    add(rows) {
      for (let from = 0; from < rows.count; ) {
        const to = Math.min(rows.count, from + GROUP_ROWS - waiting);
        columns.forEach((column, index) => {
          column.fill(rows, from, to, cells[index]!, waiting);
        });
        waiting += to - from;
        from = to;
        if (waiting === GROUP_ROWS) writeGroup();
      }
      return takeBytes();
    },
    end() {
      writeGroup();
      parquet.finish();
      return takeBytes();
    },
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
  if (kind === 'boolean') return Array.from(cells, (cell) => cell === 1);
  if (kind === 'text') return Array.from(cells, (code) => texts[code] || null);
  if (cells.some(Number.isNaN)) return Array.from(cells, (cell) => (Number.isNaN(cell) ? null : cell));
  return kind === 'integer' ? Int32Array.from(cells) : cells;
}
