import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { parquetReadObjects } from 'hyparquet';
import { compressors } from 'hyparquet-compressors';
import type { TableRows } from '../../src/model/rows.ts';
import type { TableColumn } from '../../src/model/table-columns.ts';

export type Cell = number | string | boolean | null;

/** The cells that tables should hold, straight from the definition of the columns. */
export function expectedCells(columns: readonly TableColumn[], rows: TableRows): Cell[][] {
  const into = new Float64Array(rows.count);
  const table: Cell[][] = Array.from({ length: rows.count }, () => []);
  for (const column of columns) {
    column.fill(rows, 0, rows.count, into, 0);
    into.forEach((cell, row) => {
      table[row]!.push(cellOf(column, cell));
    });
  }
  return table;
}

function cellOf({ kind, texts }: TableColumn, cell: number): Cell {
  if (kind === 'boolean') return cell === 1;
  if (kind === 'text') return texts[cell] || null;
  return Number.isNaN(cell) ? null : cell;
}

export function readCsv(path: string): string[][] {
  return parse(readFileSync(path), { relax_column_count: false });
}

/** A CSV table's cells by its columns' kinds. */
export function csvCells(columns: readonly TableColumn[], records: string[][]): Cell[][] {
  return records.map((record) =>
    record.map((field, i) => {
      const { kind } = columns[i]!;
      if (field === '') return null;
      if (kind === 'boolean') return { true: true, false: false }[field]!;
      if (kind === 'text') return field;
      return Number(field.replace('INF', 'Infinity'));
    }),
  );
}

export async function readParquet(path: string): Promise<Record<string, Cell>[]> {
  const bytes = readFileSync(path);
  const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
  return (await parquetReadObjects({ file, compressors })) as Record<string, Cell>[];
}

export function parquetCells(columns: readonly TableColumn[], objects: Record<string, Cell>[]): Cell[][] {
  return objects.map((object) => columns.map(({ name }) => object[name] ?? null));
}

export function bytesOf(folder: string, name: string): Buffer {
  return readFileSync(join(folder, name));
}
