import { existsSync, readFileSync } from 'node:fs';

/** The package's version. */
export function version(): string {
  return (JSON.parse(readFileSync(packageFile(), 'utf8')) as { version: string }).version;
}

/** `package.json`, which lies above the sources and, one folder farther, above what is built of them. */
export function packageFile(): URL {
  const places = ['../../package.json', '../../../package.json'];
  const found = places.map((place) => new URL(place, import.meta.url)).find((place) => existsSync(place));
  if (!found) throw new Error('package.json is missing');
  return found;
}
