import { type Table, tableFromIPC } from '@uwdata/flechette';
import { QUANTITIES, quantityColumns } from '../model/quantities.ts';
import type { RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { columnNamesOf } from './former-columns.ts';
import { codesOfToday, PART_CODES, type PartCodes } from './part-codes.ts';

/** The columns that differ from study to study. */
export type PartShape = Pick<Study, 'vary' | 'derive' | 'objectives' | 'requested'>;

/** Rows of a part, and the quantities of today that it does not have. */
export interface RowsByName {
  readonly rows: Omit<RowBatch, 'first'>;
  /** Indices; their cells are empty. */
  readonly missing: readonly number[];
}

/**
 * Rows of a part that a version with other quantities wrote. Each column is found by its name: what today's registry does
 * not know stays in the file, what the file does not have is empty. Null when what makes a row is not there: inputs,
 * verdict, objectives, or a status or reason that this version does not know.
 */
export function rowsByName(bytes: Uint8Array, shape: PartShape, codes: PartCodes): RowsByName | null {
  let table: Table;
  try {
    table = tableFromIPC(bytes);
  } catch {
    return null;
  }
  const count = table.numRows;
  const cells = (name: string): Float64Array | Uint8Array | Uint32Array | null => {
    const found = table.schema.fields.some((field) => field.name === name) ? table.getChild(name) : null;
    if (found === null || found.nullCount > 0 || found.length !== count) return null;
    const values: unknown = found.toArray();
    const isNumbers =
      values instanceof Float64Array || values instanceof Uint8Array || values instanceof Uint32Array;
    return isNumbers ? values : null;
  };
  const columnsOf = (names: readonly string[], where: string): Float64Array | null => {
    const columns = new Float64Array(names.length * count);
    for (const [i, name] of names.entries()) {
      const found = cells(`${where}${name}`);
      if (found === null) return null;
      columns.set(found, i * count);
    }
    return columns;
  };
  const recoded = (name: 'status' | 'reason') => {
    const table = codesOfToday(codes[name], PART_CODES[name]!);
    const found = cells(name);
    const translated = found && Array.from(found, (code) => table[code] ?? null);
    return translated?.every((code) => code !== null) ? Uint8Array.from(translated as number[]) : null;
  };

  const vary = columnsOf(
    shape.vary.map(({ name }) => name),
    'vary.',
  );
  const objectives = columnsOf(
    shape.objectives.map((_, i) => String(i)),
    'objective.',
  );
  const [status, reason] = [recoded('status'), recoded('reason')];
  const [feasible, unmet, violation] = [cells('feasible'), cells('unmet'), cells('violation')];
  if (!vary || !objectives || !status || !reason || !feasible || !unmet || !violation) return null;

  const columns = quantityColumns(shape.requested);
  const quantities = new Float64Array(columns * count).fill(Number.NaN);
  const missing: number[] = [];
  for (const { name, index, words, effort } of QUANTITIES.slice(0, columns)) {
    if (effort > 0 && !shape.requested?.includes(index)) continue;
    const then = columnNamesOf(name).find((each) => cells(each) !== null);
    if (then === undefined) {
      missing.push(index);
      continue;
    }
    const found = cells(then)!;
    const table = words.length > 0 ? codesOfToday(codes[then], words) : null;
    for (let i = 0; i < count; i++) {
      const cell = found[i]!;
      quantities[index * count + i] = table === null ? cell : (table[cell] ?? Number.NaN);
    }
  }
  const derived = new Float64Array(shape.derive.length * count).fill(Number.NaN);
  shape.derive.forEach(({ name }, i) => {
    const then = columnNamesOf(name).find((each) => cells(`derive.${each}`) !== null);
    if (then !== undefined) derived.set(cells(`derive.${then}`)!, i * count);
  });
  const width = shape.vary.length;
  const values = new Float64Array(width * count);
  for (let v = 0; v < width; v++) {
    for (let i = 0; i < count; i++) values[i * width + v] = vary[v * count + i]!;
  }
  return {
    rows: {
      count,
      values,
      status,
      reason,
      feasible: Uint8Array.from(feasible),
      unmet: Uint32Array.from(unmet),
      violation: Float64Array.from(violation),
      quantities,
      derived,
      objectives,
    },
    missing,
  };
}
