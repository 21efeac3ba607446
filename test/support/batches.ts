import { INPUTS, LAYER_THICKNESS, SLOT } from '../../src/model/inputs.ts';
import { Q, QUANTITIES, type QuantityName, quantityColumns } from '../../src/model/quantities.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { STATUS } from '../../src/model/status.ts';
import type { Study } from '../../src/model/study.ts';
import { UNITS, type Unit } from '../../src/model/units.ts';

const MM_PER_A: Unit = {
  symbol: 'mm/A',
  suffix: 'mm_per_A',
  dimension: [1, 0, 0, -1, 0],
  scale: 1e3,
  offset: 0,
};

/** A study of the workshop's foyer table: metal, turns and plate thickness vary; height against mass. */
export function workshopStudy(changes: Partial<Study> = {}): Study {
  return {
    title: 'Which wire and how many turns for the foyer table?',
    notes: '',
    rig: { slots: new Float64Array(INPUTS.length).fill(Number.NaN), plateLayers: 1, windings: 0, texts: {} },
    vary: [
      {
        kind: 'choice',
        path: 'coil.metal',
        name: 'coil_metal',
        column: 'coil_metal',
        meaning: 'metal of the conductor',
        levels: [
          { label: 'aluminium', settings: [] },
          { label: 'copper', settings: [] },
        ],
      },
      {
        kind: 'number',
        path: 'coil.turns',
        name: 'coil_turns',
        column: 'coil_turns',
        unit: UNITS.one,
        slot: SLOT.turns,
        meaning: 'turns',
        integer: true,
        levels: Float64Array.of(320, 440),
      },
      {
        kind: 'number',
        path: 'plate.thickness',
        name: 'plate_thickness',
        column: 'plate_thickness_mm',
        unit: UNITS.mm,
        slot: SLOT.plateLayers + LAYER_THICKNESS,
        meaning: 'thickness of the plate',
        integer: false,
        levels: Float64Array.of(0.0011, 0.000123),
      },
    ],
    derive: [
      {
        name: 'height_per_ampere',
        column: 'height_per_ampere_mm_per_A',
        text: 'height / current',
        program: [
          { op: 'quantity', index: Q.height },
          { op: 'quantity', index: Q.current },
          { op: 'divide' },
        ],
        unit: MM_PER_A,
      },
    ],
    limits: [limit('current <= 16 A', 'current', '<=', 16), limit('coil_mass <= 3 kg', 'coil_mass', '<=', 3)],
    objectives: [
      { text: 'height', sense: 'maximise', program: [{ op: 'quantity', index: Q.height }], unit: UNITS.mm },
      {
        text: 'coil_mass',
        sense: 'minimise',
        program: [{ op: 'quantity', index: Q.coil_mass }],
        unit: UNITS.kg,
      },
    ],
    plan: { kind: 'grid' },
    keep: null,
    text: 'study: Which wire and how many turns for the foyer table?\n',
    hash: 'ab12cd34'.repeat(8),
    ...changes,
  };
}

export function limit(
  text: string,
  name: QuantityName,
  comparison: '<=' | '>=',
  bound: number,
): Study['limits'][number] {
  return {
    text,
    comparison,
    left: [{ op: 'quantity', index: Q[name] }],
    right: [{ op: 'constant', value: bound }],
  };
}

/** What a test says of a row; everything else is empty, all limits met, floating. */
export interface Row {
  values?: number[];
  status?: keyof typeof STATUS;
  reason?: number;
  feasible?: boolean;
  unmet?: number;
  violation?: number;
  /** SI. */
  quantities?: Partial<Record<QuantityName, number>>;
  derived?: number[];
  objectives?: number[];
}

/** The rows as one batch whose first design is `first`. */
export function batchOf(study: Study, rows: readonly Row[], first = 0): RowBatch {
  const count = rows.length;
  const columns = (width: number, cell: (row: Row, index: number) => number | undefined) =>
    Float64Array.from({ length: width * count }, (_, i) => {
      return cell(rows[i % count]!, Math.floor(i / count)) ?? Number.NaN;
    });
  return {
    first,
    count,
    values: Float64Array.from(rows.flatMap((row) => row.values ?? study.vary.map(() => 0))),
    status: Uint8Array.from(rows, (row) => STATUS[row.status ?? 'lifts']),
    reason: Uint8Array.from(rows, (row) => row.reason ?? 0),
    feasible: Uint8Array.from(rows, (row) => ((row.feasible ?? true) ? 1 : 0)),
    unmet: Uint32Array.from(rows, (row) => row.unmet ?? 0),
    violation: Float64Array.from(rows, (row) => row.violation ?? ((row.feasible ?? true) ? 0 : 1)),
    quantities: columns(
      quantityColumns(study.requested),
      (row, index) => row.quantities?.[QUANTITIES[index]!.name as QuantityName],
    ),
    derived: columns(study.derive.length, (row, index) => row.derived?.[index]),
    objectives: columns(study.objectives.length, (row, index) => row.objectives?.[index]),
  };
}

/** The rows in batches of the given sizes, the last size repeating. */
export function batchesOf(study: Study, rows: readonly Row[], sizes: readonly number[]): RowBatch[] {
  const batches: RowBatch[] = [];
  for (let first = 0; first < rows.length; ) {
    const size = Math.max(1, sizes[Math.min(batches.length, sizes.length - 1)]!);
    batches.push(batchOf(study, rows.slice(first, first + size), first));
    first += size;
  }
  return batches;
}
