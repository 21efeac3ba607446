import type { TableRows } from '../../model/rows.ts';
import type { TableColumn } from '../../model/table-columns.ts';
import type { Cell, Row } from '../types.ts';

/** Rows as objects, by column name. */
export function rowsOf(columns: readonly TableColumn[], rows: TableRows): Row[] {
  const found: Record<string, Cell>[] = Array.from({ length: rows.count }, () => ({}));
  const cells = new Float64Array(rows.count);
  for (const column of columns) {
    column.fill(rows, 0, rows.count, cells, 0);
    for (let i = 0; i < rows.count; i++) found[i]![column.name] = cellOf(column, cells[i]!);
  }
  return found;
}

function cellOf({ kind, texts }: TableColumn, value: number): Cell {
  if (Number.isNaN(value)) return null;
  if (kind === 'boolean') return value === 1;
  if (kind === 'text') return texts[value] || null;
  return value;
}
