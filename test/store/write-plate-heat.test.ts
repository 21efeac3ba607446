import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writePlateHeat } from '../../src/store/write-plate-heat.ts';
import { temporaryFolder } from './temporary-folder.ts';

async function written(): Promise<(name: string) => string> {
  const folder = temporaryFolder();
  await writePlateHeat(folder, { title: 'Foyer' }, [
    { design: 7, radii: Float64Array.of(0.01, 0.02), density: Float64Array.of(1e4, 2.5e4) },
    { design: 3, radii: Float64Array.of(0.01), density: Float64Array.of(0) },
  ]);
  return (name) => readFileSync(join(folder, name), 'utf8');
}

it('writes one line a design and distance, in mm and W/cm2', async () => {
  const read = await written();
  expect(read('plate_heat.csv')).toBe('design,radius_mm,loss_density_W_per_cm2\n7,10,1\n7,20,2.5\n3,10,0\n');
});

it('describes its columns, and that design and radius together name a row', async () => {
  const read = await written();
  const { url, tableSchema, ...rest } = JSON.parse(read('plate_heat.csv-metadata.json'));
  expect(url).toBe('plate_heat.csv');
  expect(rest['dc:title']).toBe('Foyer');
  expect(tableSchema.primaryKey).toEqual(['design', 'radius_mm']);
  const units = tableSchema.columns.map((column: Record<string, string>) => [
    column.name,
    column.datatype,
    column['schema:unitText'],
  ]);
  expect(units).toEqual([
    ['design', 'integer', undefined],
    ['radius_mm', 'double', 'mm'],
    ['loss_density_W_per_cm2', 'double', 'W/cm²'],
  ]);
});
