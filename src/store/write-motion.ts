import { toUnit, UNITS, type Unit } from '../model/units.ts';
import { writeAtomically } from './atomic-file.ts';
import { type DescribedColumn, tableMetadata } from './csvw-metadata.ts';
import { MOTION_FILES } from './result-files.ts';

/** Instants of motion, a number each; SI. */
export type MotionRows = Readonly<
  Record<
    'time' | 'gap' | 'height' | 'speed' | 'current' | 'voltage' | 'force' | 'plate_loss',
    ArrayLike<number>
  >
>;

type Column = readonly [name: keyof MotionRows, unit: Unit, label: string, meaning: string];

const COLUMNS: readonly Column[] = [
  ['time', UNITS.s, 'time', 'since the drive began'],
  ['gap', UNITS.mm, 'gap', 'bare plate surface to the nearest face of the winding'],
  ['height', UNITS.mm, 'height', 'gap minus standoff'],
  ['speed', UNITS.m_per_s, 'speed', 'of what floats, upward'],
  ['current', UNITS.A, 'current', 'in the coil, at this instant'],
  ['voltage', UNITS.V, 'voltage', "at the coil's terminals with series resistance, at this instant"],
  ['force', UNITS.N, 'force', 'on what floats, upward, at this instant'],
  ['plate_loss', UNITS.W, 'plate loss', 'in the plate, at this instant'],
];

/** Digits of a cell: more than the steps of the computation hold. */
const DIGITS = 9;

/** Writes `motion.csv`, what its columns are, and the figure. */
export async function writeMotion(
  folder: string,
  title: string,
  rows: MotionRows,
  figure: string,
): Promise<void> {
  const names = COLUMNS.map(([name, { suffix }]) => `${name}_${suffix}`);
  const lines = [names.join(',')];
  for (let i = 0; i < rows.time.length; i++) {
    const cells = COLUMNS.map(([name, unit]) => {
      const value = toUnit(rows[name][i]!, unit);
      return Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : '';
    });
    lines.push(cells.join(','));
  }
  const columns = COLUMNS.map(
    ([, unit, label, meaning], i): DescribedColumn => ({
      name: names[i]!,
      label,
      kind: 'number',
      unit,
      meaning,
      nullable: false,
    }),
  );
  const description = 'One row an instant of the motion of one design, computed step by step.';
  await writeAtomically(
    folder,
    MOTION_FILES.metadata,
    tableMetadata({ url: MOTION_FILES.csv, title, description, columns, primaryKey: names[0]! }),
  );
  await writeAtomically(folder, MOTION_FILES.figure, figure);
  // last: who finds the table finds what describes it
  await writeAtomically(folder, MOTION_FILES.csv, `${lines.join('\n')}\n`);
}
