import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Origin } from '../store/run-record.ts';

/** What decides the rows of a study, besides the study: folders and files beside this one's folder. */
const CODE = ['math', 'kernel', 'rig', 'expression', 'study', 'plan'];
const CATALOGUE = /^(metals|wires|enamel-\w+)\.[jt]s$/;

/**
 * What the rows of this program follow from, as digests: its physics with everything from the study file to the
 * design, its catalogue of metals and wires, and the engine whose sine and exponential it uses. Rows of different
 * origins are never mixed.
 */
export function origin(): Origin {
  const model = sources('model');
  return {
    code: digest([...CODE.flatMap(sources), ...model.filter(({ name }) => !CATALOGUE.test(name))]),
    catalogue: digest(model.filter(({ name }) => CATALOGUE.test(name))),
    engine: `V8 ${process.versions.v8}`,
  };
}

interface Source {
  readonly name: string;
  readonly path: string;
}

function sources(folder: string): Source[] {
  const place = new URL(`../${folder}/`, import.meta.url);
  return readdirSync(place, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.[jt]s$/.test(name))
    .sort()
    .map((name) => ({ name: name.replace(/^.*[/\\]/, ''), path: fileURLToPath(new URL(name, place)) }));
}

function digest(files: readonly Source[]): string {
  const hash = createHash('sha256');
  for (const { name, path } of files) hash.update(`${name}\0`).update(readFileSync(path)).update('\0');
  return hash.digest('hex').slice(0, 16);
}
