import type { Study } from '../model/study.ts';
import { UNITS } from '../model/units.ts';
import { writeAtomically } from './atomic-file.ts';
import { type DescribedColumn, tableMetadata } from './csvw-metadata.ts';
import { RESULT_FILES } from './result-files.ts';

/** Where the heat falls in one design's plate: W/m2 over the distance from the axis in m. */
export interface PlateHeatRows {
  readonly design: number;
  readonly radii: Float64Array;
  readonly density: Float64Array;
}

const COLUMNS: readonly DescribedColumn[] = [
  {
    name: 'design',
    label: 'design',
    kind: 'integer',
    unit: UNITS.one,
    meaning: 'number of the design, as in designs.csv and front.csv',
    nullable: false,
  },
  {
    name: 'radius_mm',
    label: 'radius',
    kind: 'number',
    unit: UNITS.mm,
    meaning: 'distance from the axis',
    nullable: false,
  },
  {
    name: 'loss_density_W_per_cm2',
    label: 'loss density',
    kind: 'number',
    unit: { symbol: 'W/cm²' },
    meaning: 'heat in the plate there, over its whole thickness, for each area of its surface',
    nullable: false,
  },
];

/** Writes `plate_heat.csv`, in tidy form, and what its columns are. */
export async function writePlateHeat(
  folder: string,
  { title }: Pick<Study, 'title'>,
  designs: Iterable<PlateHeatRows>,
): Promise<void> {
  const lines = [COLUMNS.map(({ name }) => name).join(',')];
  for (const { design, radii, density } of designs) {
    radii.forEach((radius, i) => {
      lines.push(`${design},${radius * 1e3},${density[i]! * 1e-4}`);
    });
  }
  const metadata = tableMetadata({
    url: RESULT_FILES.plateHeat,
    title,
    description: 'Where the heat falls in the plates of designs on the front: one row a design and radius.',
    columns: COLUMNS,
    primaryKey: ['design', 'radius_mm'],
  });
  await writeAtomically(folder, RESULT_FILES.plateHeatMetadata, metadata);
  // last: who finds the table finds what describes it
  await writeAtomically(folder, RESULT_FILES.plateHeat, `${lines.join('\n')}\n`);
}
