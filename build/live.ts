import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'esbuild';

/**
 * `dist/live/program.js`: the program of a live page. Every page holds it, and a page has 400 kB, so it is made as short as it
 * can be: names of properties that only kernel, rig and math use become short, too (a thirtieth of it). A name stays where anything
 * else uses it, where it stands in quotes, and where it is one of the language's own.
 */

const PROJECT = fileURLToPath(new URL('../../', import.meta.url));
const LAWS = ['src/kernel', 'src/rig', 'src/math'];
const SHORT = 4;

const sources = readdirSync(join(PROJECT, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => join('src', name));
const isLaw = (name: string) => LAWS.some((folder) => name.startsWith(`${folder}/`));
const textOf = (names: readonly string[]) =>
  names.map((name) => readFileSync(join(PROJECT, name), 'utf8')).join('\n');
const laws = textOf(sources.filter(isLaw));
const rest = textOf(sources.filter((name) => !isLaw(name)));

const found = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map(([, name]) => name!);
const kept = new Set([...found(rest, /(\w+)/g), ...found(laws, /['"`](\w+)['"`]/g), ...ownNames()]);
const shortened = new Set(found(laws, /\.(\w+)/g).filter((name) => name.length >= SHORT && !kept.has(name)));

/** A page evaluates rigs within tolerances one by one, and remembers none: see the files in their places. */
const inPlace: Plugin = {
  name: 'in place',
  setup({ onResolve }) {
    onResolve({ filter: /\/near-rigs\.ts$/ }, () => ({ path: join(PROJECT, 'build/plain-rigs.ts') }));
    onResolve({ filter: /\/(numbered-keys|station-memory)\.ts$/ }, () => ({
      path: join(PROJECT, 'build/no-memory.ts'),
    }));
  },
};

await build({
  absWorkingDir: PROJECT,
  entryPoints: ['src/live/page/program.ts'],
  outfile: join(PROJECT, 'dist/live/program.js'),
  bundle: true,
  minify: true,
  mangleProps: new RegExp(`^(?:${[...shortened].join('|')})$`),
  format: 'iife',
  target: 'es2022',
  charset: 'utf8',
  plugins: [inPlace],
  legalComments: 'none',
  logLevel: 'warning',
});

/** Of everything that the language itself has: properties of its objects, and of what they make. */
function ownNames(): string[] {
  return Object.getOwnPropertyNames(globalThis).flatMap((name) => {
    const value: unknown = Reflect.get(globalThis, name);
    if (value === null || (typeof value !== 'object' && typeof value !== 'function')) return [name];
    const names = [name, ...Object.getOwnPropertyNames(value)];
    const made: unknown = Reflect.get(value, 'prototype');
    for (let one = made; one !== null && typeof one === 'object'; one = Object.getPrototypeOf(one))
      names.push(...Object.getOwnPropertyNames(one));
    return names;
  });
}
