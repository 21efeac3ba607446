import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Designs of the disturbed study. */
export const DESIGNS = 14_520;

/** A study that runs for a second or two, its tables narrow; `rest`: what else it says. */
export function disturbedStudy(title: string, rest = ''): string {
  return `study: ${title}
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, layers: 8}
  plate: {metal: aluminium-1050}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
vary:
  plate.thickness: {from: 1 mm, to: 12 mm, count: 5, spacing: log}
  coil.turns: {from: 300, to: 540, step: 2}
  coil.inner_radius: {from: 40 mm, to: 63 mm, step: 1 mm}
limits: [coil_mass <= 3 kg]
objectives: [{maximise: height / current}, {minimise: coil_mass}]
keep: [height, coil_mass, voltage]
${rest}`;
}

/** The same with three million designs: whoever watches it run may stand still for a minute, and it is still under way. */
export function longStudy(title: string): string {
  return disturbedStudy(title).replace('count: 5', 'count: 1000');
}

/** What must not depend on what happened on the way. */
export const TABLES = ['designs.csv', 'designs.parquet', 'front.csv', 'front.xlsx'] as const;

/** Digests of a result's tables; null for those that are not there. */
export function tableDigests(folder: string): Record<string, string | null> {
  return Object.fromEntries(
    TABLES.map((name) => {
      const path = join(folder, name);
      return [name, existsSync(path) ? createHash('sha256').update(readFileSync(path)).digest('hex') : null];
    }),
  );
}

export function partFiles(folder: string): string[] {
  const place = join(folder, 'parts');
  if (!existsSync(place)) return [];
  return readdirSync(place).filter((name) => name.endsWith('.arrow'));
}

/** Designs in the parts of a result, by their names. */
export function designsKept(folder: string): number {
  return partFiles(folder).reduce((sum, name) => sum + Number(name.split('-')[3]), 0);
}
