import type { Instruction } from '../model/program.ts';
import { QUANTITIES, quantityByName } from '../model/quantities.ts';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { type TableColumn, tableColumns } from '../model/table-columns.ts';
import { toUnit, type Unit } from '../model/units.ts';
import { NOTHING, numberText } from '../text/number-text.ts';
import { plainLabel } from './charts/axis-title.ts';

/** A column of the front as the page shows it. */
export interface FrontColumn {
  readonly label: string;
  readonly unit: Unit;
  readonly group: string;
  /** In the column's unit; NaN is the empty cell. Texts where the column holds texts. */
  readonly cells: readonly (number | string)[];
}

/** What a builder needs of any design, in that order. */
const ALWAYS = [
  'liftoff_current',
  'current',
  'voltage',
  'height',
  'coil_mass',
  'plate_loss',
  'coil_temperature',
];
/** A page is only so wide. */
const MOST = 12;

/**
 * The columns of the front's table: what varies, the objectives, what the study's own expressions name, and what a
 * builder needs anyway. A column that is empty throughout, or repeats one before it, is left out.
 */
export function frontColumns(study: Study, labels: readonly string[], front: TableRows): FrontColumn[] {
  const columns = new Map(allColumns(study).map((column) => [column.name, column]));
  const named = (name: string) => {
    const column = columns.get(quantityByName(name)?.column ?? name);
    return column ? [readColumn(study, column, front)] : [];
  };
  const objectives = study.objectives.map(
    ({ unit }, o): FrontColumn => ({
      label: plainLabel(labels[o]!),
      unit,
      group: 'objectives',
      cells: Array.from({ length: front.count }, (_, row) =>
        toUnit(front.objectives[o * front.count + row]!, unit),
      ),
    }),
  );
  const candidates = [
    ...study.vary.flatMap(({ column }) => named(column)),
    ...objectives,
    ...namedQuantities(study).flatMap(named),
    ...study.derive.flatMap(({ column }) => named(column)),
    // the height of a clamped rig means nothing
    ...ALWAYS.flatMap(named).filter(({ cells }) => cells.some((cell) => cell !== 0)),
  ];
  return withoutRepeats(candidates).slice(0, Math.max(MOST, study.vary.length + objectives.length));
}

/** Every column of the front that is not empty, for a design's card. */
export function cardColumns(study: Study, front: TableRows): FrontColumn[] {
  return allColumns(study)
    .filter(({ name, kind }) => name !== 'design' && kind !== 'boolean')
    .map((column) => readColumn(study, column, front))
    .filter(({ cells }) => cells.some((cell) => !isEmpty(cell)));
}

export function cellText(cell: number | string): string {
  if (typeof cell === 'number') return numberText(cell);
  return cell === '' ? NOTHING : cell;
}

function allColumns(study: Study): readonly TableColumn[] {
  return tableColumns({ ...study, keep: null });
}

function readColumn(
  study: Study,
  { label, unit, kind, texts, name, fill }: TableColumn,
  rows: TableRows,
): FrontColumn {
  const cells = new Float64Array(rows.count);
  fill(rows, 0, rows.count, cells, 0);
  return {
    label,
    unit,
    group: groupOf(name, study),
    cells: kind === 'text' ? Array.from(cells, (code) => texts[code] ?? '') : [...cells],
  };
}

function groupOf(name: string, { vary, derive }: Study): string {
  if (vary.some(({ column }) => column === name)) return 'varied inputs';
  if (derive.some(({ column }) => column === name)) return 'defined by the study';
  return QUANTITIES.find(({ column }) => column === name)?.group ?? 'outcome';
}

/** Quantities that limits and objectives name. */
function namedQuantities({ limits, objectives }: Study): string[] {
  const instructions: Instruction[] = [
    ...objectives.flatMap(({ program }) => program),
    ...limits.flatMap(({ left, right }) => [...left, ...right]),
  ];
  const indices = instructions.flatMap((each) => (each.op === 'quantity' ? [each.index] : []));
  return [...new Set(indices)].map((index) => QUANTITIES[index]!.name);
}

function withoutRepeats(columns: readonly FrontColumn[]): FrontColumn[] {
  return columns.filter(({ unit, cells }, i) => {
    if (cells.every(isEmpty)) return false;
    return !columns
      .slice(0, i)
      .some(
        (other) =>
          other.unit.symbol === unit.symbol && other.cells.every((cell, row) => Object.is(cell, cells[row])),
      );
  });
}

function isEmpty(cell: number | string): boolean {
  return typeof cell === 'number' ? Number.isNaN(cell) : cell === '';
}
