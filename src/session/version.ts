import { existsSync, readFileSync } from 'node:fs';

/** The package's version. Its file lies above the sources and, one folder farther, above what is built of them. */
export function version(): string {
  const places = ['../../package.json', '../../../package.json'];
  const found = places.map((place) => new URL(place, import.meta.url)).find((place) => existsSync(place));
  if (!found) throw new Error('package.json is missing');
  return (JSON.parse(readFileSync(found, 'utf8')) as { version: string }).version;
}
