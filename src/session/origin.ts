import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import * as inputs from '../model/inputs.ts';
import * as quantities from '../model/quantities.ts';
import * as status from '../model/status.ts';
import type { Origin } from '../store/run-record.ts';
import { packageFile } from './version.ts';

/** Where the way from a study's text to its rows begins: what these files import, they and no other code decide rows. */
const ENTRIES = [
  'study/read-study',
  'study/include-files',
  'plan/create-plan',
  'plan/descent',
  'plan/space',
  'rig/evaluate',
];
/** Only what is printed of studies that are refused, and those have no rows; and what editors show. */
const WORDING = ['study/shape-problems', 'study/editor-hints', 'expression/suggest', 'model/renamed'];
/** Lists of what there is, with words for people beside it: their entries count without these words. */
const REGISTRIES: Readonly<Record<string, object>> = {
  'model/inputs': inputs,
  'model/quantities': quantities,
  'model/status': status,
};
const WORDS = ['label', 'meaning', 'group', 'text', 'blame', 'FRAME'];
const CATALOGUE = /^model\/(?:metals|metal-[\w-]+|wires|enamel-[\w-]+|series\/[\w-]+)$/;

const IMPORT = /^(?:import|export|\})[^'\n]*?\bfrom '([^']+)'|\bimport\('([^']+)'\)/gm;

/**
 * What the rows of this program follow from, as digests: its physics with everything from the study file to the
 * design, its catalogue of metals and wires, and the engine whose sine and exponential it uses. Rows of different
 * origins are never mixed.
 *
 * The digest is that of the built files, which have no comments, so that a word in a comment, a label or a caution
 * leaves results as they are.
 */
export function origin(): Origin {
  const built = typeof BUILT_DIGESTS === 'undefined' ? digests() : BUILT_DIGESTS;
  return { ...built, engine: `V8 ${process.versions.v8}` };
}

type Digests = Omit<Origin, 'engine'>;

/** In the bundled program: the digests of the modules that it was made of, put in by the build. */
declare const BUILT_DIGESTS: Digests | undefined;

/** Reads the modules; not for the bundled program, which has none. */
export function digests(): Digests {
  const { files, packages } = reachable();
  const code = [...files].filter(([name]) => !CATALOGUE.test(name));
  return {
    code: digest([...code, ...packages]),
    catalogue: digest([...files].filter(([name]) => CATALOGUE.test(name))),
  };
}

type Named = readonly [name: string, content: string];

/** Files by their name below the sources, without its ending, and packages with their version, both sorted. */
function reachable(): { readonly files: readonly Named[]; readonly packages: readonly Named[] } {
  const root = new URL('../', import.meta.url);
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  const { dependencies } = JSON.parse(readFileSync(packageFile(), 'utf8')) as {
    dependencies: Readonly<Record<string, string>>;
  };
  const files = new Map<string, string>();
  const packages = new Map<string, string>();
  const visit = (name: string): void => {
    if (files.has(name) || WORDING.includes(name)) return;
    const place = new URL(`${name}${ending}`, root);
    const text = readFileSync(place, 'utf8');
    const registry = REGISTRIES[name];
    files.set(name, registry === undefined ? text : withoutWords(registry));
    for (const [statement, from, lazily] of text.matchAll(IMPORT)) {
      const specifier = from ?? lazily!;
      if (statement.startsWith('import type') || specifier.startsWith('node:')) continue;
      if (specifier.startsWith('.')) {
        visit(new URL(specifier, place).href.slice(root.href.length).replace(/\.[jt]s$/, ''));
      } else packages.set(specifier, dependencies[specifier] ?? '');
    }
  };
  for (const entry of ENTRIES) visit(entry);
  const sorted = (map: ReadonlyMap<string, string>) => [...map].sort(([a], [b]) => (a < b ? -1 : 1));
  return { files: sorted(files), packages: sorted(packages) };
}

/** What a registry exports, functions and words for people left out. */
function withoutWords(registry: object): string {
  return JSON.stringify(registry, (key, value) => {
    if (WORDS.includes(key)) return undefined;
    if (typeof value === 'number') return String(value);
    return value instanceof Map || value instanceof Set ? [...value] : value;
  });
}

function digest(files: readonly Named[]): string {
  const hash = createHash('sha256');
  for (const [name, content] of files) hash.update(`${name}\0`).update(content).update('\0');
  return hash.digest('hex').slice(0, 16);
}
