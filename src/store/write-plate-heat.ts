import { writeAtomically } from './atomic-file.ts';
import { RESULT_FILES } from './result-files.ts';

/** Where the heat falls in one design's plate: W/m2 over the distance from the axis in m. */
export interface PlateHeatRows {
  readonly design: number;
  readonly radii: Float64Array;
  readonly density: Float64Array;
}

/** Writes `plate_heat.csv`: design, radius_mm, loss_density_W_per_cm2, in tidy form. */
export async function writePlateHeat(folder: string, designs: Iterable<PlateHeatRows>): Promise<void> {
  const lines = ['design,radius_mm,loss_density_W_per_cm2'];
  for (const { design, radii, density } of designs) {
    radii.forEach((radius, i) => {
      lines.push(`${design},${radius * 1e3},${density[i]! * 1e-4}`);
    });
  }
  await writeAtomically(folder, RESULT_FILES.plateHeat, `${lines.join('\n')}\n`);
}
