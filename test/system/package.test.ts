import { execFileSync, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

/** The package as `npm pack` makes it, outside the clone; where system tests run whole. */

const folder = scratchFolder();
const unpacked = join(folder, 'node_modules/eddylift');
let tarball = '';
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const npm = (args: readonly string[], cwd: string) =>
  execFileSync('npm', [...args], { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });

beforeAll(() => {
  if (!whole) return;
  npm(['run', '-s', 'build:types'], PROJECT);
  npm(['pack', '--ignore-scripts', '--pack-destination', folder], PROJECT);
  tarball = join(folder, readdirSync(folder).find((name) => name.endsWith('.tgz'))!);
  mkdirSync(unpacked, { recursive: true });
  execFileSync('tar', ['-xzf', tarball, '--strip-components=1', '-C', unpacked]);
  // what it depends on, without asking a registry
  symlinkSync(join(PROJECT, 'node_modules'), join(unpacked, 'node_modules'));
});

const node = (args: readonly string[], cwd = folder) => {
  const { stdout, stderr, status } = spawnSync(process.execPath, [...args], { cwd, encoding: 'utf8' });
  expect(status, stderr).toBe(0);
  return stdout;
};

function filesIn(root: string): string[] {
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => !name.startsWith('node_modules'))
    .map((name) => name.replaceAll('\\', '/'));
}

describe.runIf(whole)('the package', () => {
  it('ships no test, no source but what is built, and everything that its declarations import', () => {
    const files = filesIn(unpacked);
    expect(files.filter((name) => /(^|\/)test\/|\.test\.|bench\.js$/.test(name))).toEqual([]);
    expect(files.filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))).toEqual([]);
    const declarations = files.filter((name) => name.endsWith('.d.ts'));
    expect(declarations.length).toBeGreaterThan(3);
    for (const name of declarations) {
      const text = readFileSync(join(unpacked, name), 'utf8');
      for (const [, from] of text.matchAll(/from '(\.[^']+)\.ts'/g)) {
        expect(files).toContain(normalize(join(dirname(name), `${from}.d.ts`)));
      }
    }
  });

  it('has links that work in it, to files and to headings', () => {
    const pages = filesIn(unpacked).filter((name) => name.endsWith('.md'));
    expect(pages).toContain('README.md');
    const dead = pages.flatMap((page) => {
      const text = readFileSync(join(unpacked, page), 'utf8').replace(/^```[\s\S]*?^```/gm, '');
      return [...text.matchAll(/\]\((?!https?:)([^)#\s]*)(?:#([^)\s]+))?\)/g)].flatMap(([, to, heading]) => {
        const target = to === '' ? page : normalize(join(dirname(page), to!));
        if (!existsSync(join(unpacked, target))) return [`${page}: ${to}`];
        if (heading === undefined) return [];
        const anchors = [...readFileSync(join(unpacked, target), 'utf8').matchAll(/^#+ (.*)$/gm)].map(
          ([, title]) =>
            title!
              .toLowerCase()
              .replace(/[^\p{L}\p{N} _-]/gu, '')
              .replaceAll(' ', '-'),
        );
        return anchors.includes(heading) ? [] : [`${page}: ${to}#${heading}`];
      });
    });
    expect(dead).toEqual([]);
  });

  it('is private, and says where bugs go and what it is about', () => {
    const {
      private: isPrivate,
      bugs,
      keywords,
    } = JSON.parse(readFileSync(join(unpacked, 'package.json'), 'utf8'));
    expect(isPrivate).toBe(true);
    expect(bugs.url).toMatch(/^https:/);
    expect(keywords.length).toBeGreaterThan(3);
  });

  it('has a command line that runs from anywhere', () => {
    const cli = join(unpacked, 'dist/program/cli.js');
    node([cli, 'new', 'coil.yaml', '--yes']);
    expect(node([cli, 'card', 'coil.yaml'])).toMatch(/lift-off/);
    expect(node([cli, 'run', 'coil.yaml', '--out', 'coil'])).toMatch(/Results: coil\n$/);
    // the schema that the study names is there
    const [, schema] = /\$schema=(\S+)/.exec(readFileSync(join(folder, 'coil.yaml'), 'utf8'))!;
    expect(existsSync(join(folder, schema!))).toBe(true);
  });
});

describe.runIf(whole)('as a library', () => {
  it('runs its example', () => {
    const example = join(folder, 'example.js');
    writeFileSync(join(folder, 'package.json'), '{"type": "module"}');
    writeFileSync(example, readFileSync(join(unpacked, 'examples/plate-thickness.js')));
    expect(node([example])).toMatch(/^thickness.*\n(?: +\d+ mm +\S+.*\n){8}$/);
  });

  it('does what docs/library.md says, piece by piece', () => {
    const text = readFileSync(join(unpacked, 'docs/library.md'), 'utf8');
    const pieces = [...text.matchAll(/^```js\n([\s\S]*?)^```\n```\n([\s\S]*?)^```/gm)];
    expect(pieces.length).toBeGreaterThan(3);
    const program = pieces.map(([, code]) => `${code}\nconsole.log('-- next');\n`).join('');
    writeFileSync(join(folder, 'page.mjs'), program);
    const printed = node(['page.mjs']).split('-- next\n');
    pieces.forEach(([, , wanted], i) => {
      expect(printed[i]).toBe(wanted);
    });
  });

  it('has types that a strict program in a folder of its own compiles with', () => {
    writeFileSync(
      join(folder, 'use.ts'),
      `import { evaluate, readResult, readStudy, runStudy, type Row, quantities } from 'eddylift';
const study = await readStudy('coil.yaml');
const row: Row = evaluate(study, { 'coil.turns': 440 });
const height: string | number | boolean | null | undefined = row['height_mm'];
const report = await runStudy(study, { folder: 'x', threads: 2 });
const result = await readResult(report.folder ?? 'x');
for await (const each of result.rows()) console.log(each['design'], height, quantities.length);
// @ts-expect-error: an option that there is not
await runStudy(study, { fodler: 'x' });
`,
    );
    writeFileSync(
      join(folder, 'tsconfig.json'),
      JSON.stringify({
        compilerOptions: {
          ...{ strict: true, noEmit: true, target: 'es2023', module: 'nodenext', lib: ['es2023', 'dom'] },
          types: [],
        },
        files: ['use.ts'],
      }),
    );
    const tsc = join(PROJECT, 'node_modules/.bin/tsc');
    const { stdout, status } = spawnSync(tsc, ['-p', '.'], { cwd: folder, encoding: 'utf8' });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });
});

// asks the registry for what it depends on
describe.runIf(whole)('installed by npm', () => {
  const empty = join(folder, 'empty');
  const prefix = join(folder, 'global');

  it('works in an empty directory, and says what a queue needs', () => {
    mkdirSync(empty);
    npm(['init', '-y'], empty);
    npm(['install', '--no-audit', '--no-fund', tarball], empty);
    expect(existsSync(join(empty, 'node_modules/bullmq'))).toBe(false);
    writeFileSync(join(empty, 'use.mjs'), readFileSync(join(unpacked, 'examples/plate-thickness.js')));
    expect(node(['use.mjs'], empty)).toContain('12 mm');
    const cli = join(empty, 'node_modules/.bin/eddylift');
    node([cli, 'new', 'coil.yaml', '--yes'], empty);
    const run = spawnSync(cli, ['run', 'coil.yaml', '--queue', 'redis://localhost:1'], {
      cwd: empty,
      encoding: 'utf8',
    });
    expect(run.status).toBe(2);
    expect(run.stderr).toMatch(/^eddylift: a queue needs packages .* npm install bullmq@\S+ ioredis@/);
    expect(spawnSync(cli, ['run', 'coil.yaml'], { cwd: empty }).status).toBe(0);
  });

  it('works installed globally', () => {
    mkdirSync(prefix);
    npm(['install', '--global', '--prefix', prefix, '--no-audit', '--no-fund', tarball], folder);
    const cli = join(prefix, 'bin/eddylift');
    const { stdout } = spawnSync(cli, ['--version'], { encoding: 'utf8' });
    expect(stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
