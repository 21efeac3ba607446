import {
  type Column,
  columnFromArray,
  type Table,
  tableFromColumns,
  tableFromIPC,
  tableToIPC,
} from '@uwdata/flechette';
import { QUANTITIES } from '../model/quantities.ts';
import { joinBatches } from '../model/row-batches.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { PartName } from './part-name.ts';

/**
 * Rows as an Arrow IPC file and back: one column a varied input, verdict, quantity, derived quantity and objective,
 * all SI, NaN for an empty cell. It holds every quantity, also those that the study's tables leave out. The layout is
 * that of RESULT_FORMAT.
 */

/** A finished batch of a plan; `report` is what came back with its rows, plain data, null where nothing did. */
export interface FinishedBatch {
  readonly rows: RowBatch;
  readonly report: unknown;
}

/** The columns that differ from study to study. */
export type PartShape = Pick<Study, 'vary' | 'derive' | 'objectives'>;

/** Keys of the schema's metadata: whose the part is, and how its rows fall into batches. */
const STAMP = 'eddylift.stamp';
const BATCHES = 'eddylift.batches';

/** Batches that follow one another. `stamp`: the study, code and catalogue that their rows come from. */
export function partToBytes(batches: readonly FinishedBatch[], shape: PartShape, stamp: string): Uint8Array {
  const rows = joinBatches(batches.map((batch) => batch.rows));
  const { count, status, reason, feasible, unmet, violation } = rows;
  const block = (columns: Float64Array) =>
    Array.from({ length: columns.length / count }, (_, i) => column(rows, columns, i));
  const cells = [
    ...shape.vary.map((_, v) => everyNth(rows.values, v, shape.vary.length, count)),
    ...[status, reason, feasible, unmet, violation],
    ...[rows.quantities, rows.derived, rows.objectives].flatMap(block),
  ];
  const table = tableFromColumns(
    columnNames(shape).map((name, i): [string, Column<unknown>] => [name, columnFromArray(cells[i]!)]),
  );
  table.schema.metadata = new Map([
    [STAMP, stamp],
    [BATCHES, JSON.stringify(batches.map((batch) => [batch.rows.count, batch.report]))],
  ]);
  return tableToIPC(table, { format: 'file' })!;
}

export interface Part {
  readonly rows: RowBatch;
  /** How many rows each batch has, and what came back with them. */
  readonly batches: readonly (readonly [count: number, report: unknown])[];
}

/** Null when the bytes are no part of this stamp, shape and number of rows. */
export function partFromBytes(
  bytes: Uint8Array,
  shape: PartShape,
  stamp: string,
  { first, count }: Pick<PartName, 'first' | 'count'>,
): Part | null {
  const table = readTable(bytes);
  if (table === null || table.schema.metadata?.get(STAMP) !== stamp || table.numRows !== count) return null;
  const names = columnNames(shape);
  const found = table.schema.fields;
  if (found.length !== names.length || found.some(({ name }, i) => name !== names[i])) return null;
  const width = shape.vary.length;
  const read = (index: number) => table.getChildAt(index).data[0]!.values as ArrayLike<number>;
  const values = new Float64Array(width * count);
  for (let v = 0; v < width; v++) {
    const cells = read(v);
    for (let i = 0; i < count; i++) values[i * width + v] = cells[i]!;
  }
  const block = (from: number, columns: number) => {
    const cells = new Float64Array(columns * count);
    for (let c = 0; c < columns; c++) cells.set(read(from + c), c * count);
    return cells;
  };
  const quantities = width + FRAME.length;
  const derived = quantities + QUANTITIES.length;
  const rows: RowBatch = {
    first,
    count,
    values,
    status: Uint8Array.from(read(width)),
    reason: Uint8Array.from(read(width + 1)),
    feasible: Uint8Array.from(read(width + 2)),
    unmet: Uint32Array.from(read(width + 3)),
    violation: Float64Array.from(read(width + 4)),
    quantities: block(quantities, QUANTITIES.length),
    derived: block(derived, shape.derive.length),
    objectives: block(derived + shape.derive.length, shape.objectives.length),
  };
  return { rows, batches: JSON.parse(table.schema.metadata.get(BATCHES)!) };
}

/** Columns between the varied inputs and the quantities. */
const FRAME = ['status', 'reason', 'feasible', 'unmet', 'violation'];

function columnNames({ vary, derive, objectives }: PartShape): string[] {
  return [
    ...vary.map(({ name }) => `vary.${name}`),
    ...FRAME,
    ...QUANTITIES.map(({ name }) => name),
    ...derive.map(({ name }) => `derive.${name}`),
    ...objectives.map((_, i) => `objective.${i}`),
  ];
}

function readTable(bytes: Uint8Array): Table | null {
  try {
    return tableFromIPC(bytes);
  } catch {
    return null;
  }
}

function everyNth(values: Float64Array, start: number, step: number, count: number): Float64Array {
  const cells = new Float64Array(count);
  for (let i = 0; i < count; i++) cells[i] = values[start + i * step]!;
  return cells;
}
