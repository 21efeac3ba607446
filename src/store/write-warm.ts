import { toUnit, UNITS, type Unit } from '../model/units.ts';
import { writeAtomically } from './atomic-file.ts';
import { type DescribedColumn, tableMetadata } from './csvw-metadata.ts';
import { WARM_FILES } from './result-files.ts';

/** One moment of a warming rig; SI, NaN where not known. */
export type WarmRow = Readonly<Record<'time' | 'current' | 'height' | 'mean' | 'hottest' | 'plate', number>>;

type Column = readonly [key: keyof WarmRow, name: string, unit: Unit, label: string, meaning: string];

const COLUMNS: readonly Column[] = [
  ['time', 'time', UNITS.s, 'time', 'since the drive was set'],
  ['current', 'current', UNITS.A, 'current', 'rms coil current'],
  ['height', 'height', UNITS.mm, 'height', 'gap minus standoff'],
  ['mean', 'coil_temperature', UNITS.degC, 'coil temperature', 'mean of the hottest winding'],
  ['hottest', 'coil_hot_spot', UNITS.degC, 'coil hot spot', 'hottest place of the winding'],
  [
    'plate',
    'plate_temperature',
    UNITS.degC,
    'plate temperature',
    'mean of the plate, and the water on it; empty where its size is not known',
  ],
];

const DIGITS = 9;

/** Writes `warm.csv`, what its columns are, and the figure. */
export async function writeWarm(
  folder: string,
  title: string,
  rows: readonly WarmRow[],
  figure: string,
): Promise<void> {
  const names = COLUMNS.map(([, name, { suffix }]) => `${name}_${suffix}`);
  const lines = [names.join(',')];
  for (const row of rows) {
    const cells = COLUMNS.map(([key, , unit]) => {
      const value = toUnit(row[key], unit);
      return Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : '';
    });
    lines.push(cells.join(','));
  }
  const columns = COLUMNS.map(
    ([key, , unit, label, meaning], i): DescribedColumn => ({
      name: names[i]!,
      label,
      kind: 'number',
      unit,
      meaning,
      nullable: key === 'plate',
    }),
  );
  const description = 'One row a moment of one design that warms while its drive is left alone.';
  await writeAtomically(
    folder,
    WARM_FILES.metadata,
    tableMetadata({ url: WARM_FILES.csv, title, description, columns, primaryKey: names[0]! }),
  );
  await writeAtomically(folder, WARM_FILES.figure, figure);
  // last: who finds the table finds what describes it
  await writeAtomically(folder, WARM_FILES.csv, `${lines.join('\n')}\n`);
}
