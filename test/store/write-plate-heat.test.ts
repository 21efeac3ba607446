import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writePlateHeat } from '../../src/store/write-plate-heat.ts';
import { temporaryFolder } from './temporary-folder.ts';

it('writes one line a design and distance, in mm and W/cm2', async () => {
  const folder = temporaryFolder();
  await writePlateHeat(folder, [
    { design: 7, radii: Float64Array.of(0.01, 0.02), density: Float64Array.of(1e4, 2.5e4) },
    { design: 3, radii: Float64Array.of(0.01), density: Float64Array.of(0) },
  ]);
  expect(readFileSync(join(folder, 'plate_heat.csv'), 'utf8')).toBe(
    'design,radius_mm,loss_density_W_per_cm2\n7,10,1\n7,20,2.5\n3,10,0\n',
  );
});
