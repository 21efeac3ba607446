import { type ColumnTable, table } from 'arquero';
import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { type TableColumn, tableColumns } from '../model/table-columns.ts';
import { toUnit } from '../model/units.ts';
import { significant } from '../text/significant.ts';
import { layOut, type TextColumn, totalWidth } from '../text/text-columns.ts';
import { objectiveLabel, plainQuantity } from './objective-words.ts';

/** What a builder looks at next, most important first. */
const NEXT: readonly QuantityName[] = [
  'liftoff_current',
  'current',
  'height',
  'voltage',
  'coil_mass',
  'power',
];

export interface FrontTableOptions {
  /** Characters a line; default 80. */
  readonly width?: number;
  /** Rows to show; default 10. */
  readonly count?: number;
  /** Where the whole front stands; default `front.csv`. */
  readonly file?: string;
}

/**
 * The first rows of the front as an aligned table with units: the design, its varied inputs, the objectives,
 * then what a builder needs next. Too narrow a terminal loses columns: the last of what comes next first,
 * then inputs, then objectives, but never the design or the first objective.
 */
export function frontTable(
  study: Study,
  front: TableRows,
  { width = 80, count = 10, file = 'front.csv' }: FrontTableOptions = {},
): string {
  const shown = Math.min(count, front.count);
  const columns = shownColumns(study);
  const cells = cellTable(columns, front, shown);
  const texts = columns.map(
    (column): Candidate => ({
      ...column,
      cells: Array.from(cells.array(column.id) as ArrayLike<number | string>, cellText(column)),
    }),
  );
  const fitting = fitted(withoutRepeats(texts), width);
  const rest = front.count - shown;
  const tail = rest > 0 ? [`and ${rest} more in ${file}`] : [];
  return [...layOut(fitting), ...tail].join('\n');
}

type Role = 'design' | 'input' | 'objective' | 'next';

interface ShownColumn {
  readonly id: string;
  readonly role: Role;
  readonly label: string;
  readonly unit: string;
  readonly kind: TableColumn['kind'];
  readonly texts: readonly string[];
  readonly fill: TableColumn['fill'];
}

type Candidate = ShownColumn & TextColumn;

function shownColumns(study: Study): ShownColumn[] {
  const all = new Map(tableColumns({ ...study, keep: null }).map((column) => [column.name, column]));
  const from = (name: string, role: Role): ShownColumn => {
    const column = all.get(name)!;
    return { ...column, id: name, role, unit: column.unit.symbol };
  };
  const wanted = study.objectives.map((objective) => plainQuantity(objective.program)?.name);
  return [
    from('design', 'design'),
    ...study.vary.map(({ column }) => from(column, 'input')),
    ...study.objectives.map(
      (objective, k): ShownColumn => ({
        id: `objective ${k}`,
        role: 'objective',
        label: objectiveLabel(objective),
        unit: objective.unit.symbol,
        kind: 'number',
        texts: [],
        fill: (rows, start, end, into, at) => {
          for (let i = start; i < end; i++) {
            into[at + i - start] = toUnit(rows.objectives[k * rows.count + i]!, objective.unit);
          }
        },
      }),
    ),
    ...NEXT.filter((name) => !wanted.includes(name)).map((name) => from(QUANTITIES[Q[name]]!.column, 'next')),
  ];
}

function cellTable(columns: readonly ShownColumn[], rows: TableRows, count: number): ColumnTable {
  return table(
    columns.map(({ id, kind, texts, fill }) => {
      const cells = new Float64Array(count);
      fill(rows, 0, count, cells, 0);
      return [id, kind === 'text' ? Array.from(cells, (code) => texts[code]!) : cells];
    }),
  );
}

function cellText({ kind }: ShownColumn): (cell: number | string) => string {
  return (cell) => (typeof cell === 'string' || kind === 'integer' ? String(cell) : significant(cell));
}

/** What comes next is left out where it is empty throughout or repeats a column before it. */
function withoutRepeats(columns: readonly Candidate[]): Candidate[] {
  return columns.filter(({ role, unit, cells }, index) => {
    if (role !== 'next') return true;
    if (cells.every((cell) => cell === '-')) return false;
    return !columns
      .slice(0, index)
      .some((other) => other.unit === unit && other.cells.every((cell, row) => cell === cells[row]));
  });
}

function fitted(columns: readonly Candidate[], width: number): Candidate[] {
  const kept = [...columns];
  for (const role of ['next', 'input', 'objective'] as const) {
    const least = role === 'objective' ? 1 : 0;
    while (totalWidth(kept) > width && kept.filter((column) => column.role === role).length > least) {
      kept.splice(
        kept.findLastIndex((column) => column.role === role),
        1,
      );
    }
  }
  return kept;
}
