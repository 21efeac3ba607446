import { existsSync } from 'node:fs';
import { dirname, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packageFile } from './version.ts';

/** Where an editor finds the schema, from a study's file: a path relative to it; null where this package has none. */
export function schemaReference(study: string): string | null {
  const schema = fileURLToPath(new URL('studies/study.schema.json', packageFile()));
  if (!existsSync(schema)) return null;
  const path = relative(dirname(study), schema).split(sep).join('/');
  return path.startsWith('.') || path.startsWith('/') ? path : `./${path}`;
}
