import { existsSync, readFileSync } from 'node:fs';

/** The script of a live page, as it was built; from the sources and, one folder farther, from what is built of them. */
export function liveProgram(): string {
  const places = ['../../dist/live/program.js', '../../live/program.js'];
  const found = places.map((place) => new URL(place, import.meta.url)).find((place) => existsSync(place));
  if (!found) throw new Error('the script of live pages is missing: npm run build makes it');
  return readFileSync(found, 'utf8').trim();
}
