import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { createRandom } from '../../src/math/random.ts';
import { type Mutation, mutationsOf } from './mutations.ts';

/**
 * `npm run test:mutation -- --count 60 --seed 1`: puts one small fault at a time into slots, units and laws of a scratch
 * copy and runs the tests of that part. A fault that no test notices is printed: it asks for an assertion, or it changes
 * nothing. `--only TEXT` takes the files alone whose path has it in it. Not part of `npm test`: each fault costs seconds.
 */

const PROJECT = fileURLToPath(new URL('../../..', import.meta.url));
const COPIED = [
  'src',
  'workers',
  'test',
  'studies',
  'docs',
  'package.json',
  'vitest.config.ts',
  'tsconfig.json',
];
/** A fault that makes a test endless is noticed, too. */
const LONGEST_MS = 600_000;

/** Tests that take longer than ten seconds: only for the files that they import themselves. */
const SLOW = /disc-coupling|small-motion|cautions-of|sideways-coupling|motion-in-time/;

const USED = /^test\/(kernel|rig|model|expression|card|study|math|text|words)\//;

interface Fault extends Mutation {
  readonly path: string;
}

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '60' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
  },
});

/** What is known of stages of tests, without a fault. */
const sound = new Map<string, boolean>();
const copy = mkdtempSync(join(tmpdir(), 'eddylift-mutation-'));
try {
  for (const name of COPIED) cpSync(join(PROJECT, name), join(copy, name), { recursive: true });
  symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'));
  const tests = filesBelow('test', '.test.ts').filter((test) => USED.test(test));
  check(chosen(faultsOf(values.only), Number(values.count), Number(values.seed)), tests);
} finally {
  rmSync(copy, { recursive: true, force: true });
}

function faultsOf(only: string): Fault[] {
  const laws = ['src/rig', 'src/kernel'].flatMap((folder) => filesBelow(folder, '.ts'));
  return ['src/model/inputs.ts', 'src/model/units.ts', ...laws]
    .filter((path) => path.includes(only))
    .flatMap((path) =>
      mutationsOf(path, readFileSync(join(copy, path), 'utf8')).map((found) => ({ path, ...found })),
    );
}

function filesBelow(folder: string, ending: string): string[] {
  return readdirSync(join(copy, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .sort();
}

/** A quarter of slots, a quarter of units, the rest of laws, each as far as there are any; in no order. */
function chosen(faults: readonly Fault[], count: number, seed: number): Fault[] {
  const random = createRandom(seed, faults.length);
  const some = (kind: Fault['kind'], most: number) => {
    const left = faults.filter((fault) => fault.kind === kind);
    const taken: Fault[] = [];
    while (left.length > 0 && taken.length < most) taken.push(...left.splice(random.below(left.length), 1));
    return taken;
  };
  const edge = Math.round(count / 4);
  const inputs = [...some('slot', edge), ...some('unit', edge)];
  return [...inputs, ...some('law', count - inputs.length)];
}

/** Puts in each fault, and prints which survive. */
function check(faults: readonly Fault[], tests: readonly string[]): void {
  const survivors: Fault[] = [];
  faults.forEach((fault, index) => {
    const path = join(copy, fault.path);
    const text = readFileSync(path, 'utf8');
    const noticed = stages(fault.path, tests).some((stage) => {
      if (!isSound(stage)) return false;
      writeFileSync(path, fault.text);
      const passed = passes(stage);
      writeFileSync(path, text);
      return !passed;
    });
    if (!noticed) survivors.push(fault);
    print(`${index + 1}/${faults.length} ${noticed ? 'noticed ' : 'SURVIVED'} ${describe(fault)}`);
  });
  print(`\n${faults.length - survivors.length} of ${faults.length} faults were noticed.`);
  for (const fault of survivors) print(`survived: ${describe(fault)}`);
}

function describe({ kind, path, line, before, after }: Fault): string {
  return `${kind} ${path}:${line}\n    ${before}\n    ${after}`;
}

/** Whether tests pass on the sound copy: what fails anyway would notice every fault. */
function isSound(tests: readonly string[]): boolean {
  const key = tests.join(' ');
  if (!sound.has(key)) {
    sound.set(key, passes(tests));
    if (!sound.get(key)) print(`left out, fails without any fault: ${key}`);
  }
  return sound.get(key)!;
}

/** Tests in the order in which they are tried: what imports the file, then its part of the program. */
function stages(path: string, tests: readonly string[]): string[][] {
  const own = tests.filter((test) => importsIt(test, path));
  const folder = dirname(path).replace('src/', 'test/');
  const near = tests.filter((test) => test.startsWith(`${folder}/`));
  const far = tests.filter((test) => /^test\/(rig|model|expression|card|study)\//.test(test));
  const others = [...new Set([...near, ...far])].filter((test) => !own.includes(test) && !SLOW.test(test));
  return [own, others].filter((stage) => stage.length > 0);
}

function importsIt(test: string, path: string): boolean {
  return (
    readFileSync(join(copy, test), 'utf8').includes(`${path.replace('src/', '/src/')}'`) ||
    basename(test) === basename(path).replace(/\.ts$/, '.test.ts')
  );
}

function passes(tests: readonly string[]): boolean {
  const run = spawnSync(
    process.execPath,
    ['node_modules/vitest/vitest.mjs', 'run', '--project', 'unit', '--bail', '1', '--silent=true', ...tests],
    { cwd: copy, stdio: 'ignore', timeout: LONGEST_MS, killSignal: 'SIGKILL' },
  );
  return run.status === 0;
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
