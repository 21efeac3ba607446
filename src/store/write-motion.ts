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

export function writeMotionFigure(folder: string, figure: string): Promise<void> {
  return writeAtomically(folder, MOTION_FILES.figure, figure);
}

const NAMES = COLUMNS.map(([name, { suffix }]) => `${name}_${suffix}`);

/** `motion.csv` and what its columns are: rows become text as they come, so that little is left to do when a run is interrupted. */
export class MotionTable {
  private readonly lines = [NAMES.join(',')];

  /** The rows from the first that is not yet in it. */
  add(rows: Omit<MotionRows, 'height'>, standoff: number): void {
    for (let i = this.lines.length - 1; i < rows.time.length; i++) {
      const cells = COLUMNS.map(([name, unit]) => {
        const si = name === 'height' ? rows.gap[i]! - standoff : rows[name][i]!;
        const value = toUnit(si, unit);
        return Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : '';
      });
      this.lines.push(cells.join(','));
    }
  }

  async write(folder: string, title: string): Promise<void> {
    const columns = COLUMNS.map(
      ([, unit, label, meaning], i): DescribedColumn => ({
        name: NAMES[i]!,
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
      tableMetadata({ url: MOTION_FILES.csv, title, description, columns, primaryKey: NAMES[0]! }),
    );
    // last: who finds the table finds what describes it
    await writeAtomically(folder, MOTION_FILES.csv, `${this.lines.join('\n')}\n`);
  }
}
