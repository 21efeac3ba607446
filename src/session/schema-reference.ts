import { existsSync, readFileSync } from 'node:fs';
import { dirname, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packageFile } from './version.ts';

const SCHEMAS = {
  study: 'studies/study.schema.json',
  documents: 'schemas/documents.schema.json',
} as const;

/** One of the schemas that come with this package. */
export function readSchema(of: keyof typeof SCHEMAS): string {
  return readFileSync(new URL(SCHEMAS[of], packageFile()), 'utf8');
}

/** Where an editor finds the schema, from a study's file: a path relative to it; null where this package has none. */
export function schemaReference(study: string): string | null {
  const schema = fileURLToPath(new URL(SCHEMAS.study, packageFile()));
  if (!existsSync(schema)) return null;
  const path = relative(dirname(study), schema).split(sep).join('/');
  return path.startsWith('.') || path.startsWith('/') ? path : `./${path}`;
}
