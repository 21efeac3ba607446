import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

/** What the project shows to its users is run: every demo study, every command of README and docs. */

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const studies = readdirSync(join(PROJECT, 'studies')).filter((name) => name.endsWith('.yaml'));

describe('the demo studies', () => {
  it('are there', () => {
    expect(studies.length).toBeGreaterThanOrEqual(3);
  });

  it.each(studies)('%s says in its header what it asks and how long it takes', (name) => {
    const header = readFileSync(join(PROJECT, 'studies', name), 'utf8').split(/^[^#]/m)[0]!;
    expect(header).toMatch(/\?/);
    expect(header).toMatch(/\b(second|seconds|minute|minutes|s)\b/);
  });

  it.runIf(whole).each(studies)(
    '%s runs through, no design of it fails, and its front is not empty',
    async (name) => {
      const file = join(PROJECT, 'studies', name);
      const { code, out, err } = await cli(['run', file, '--out', name, '--json'], scratch);
      expect(err).not.toMatch(/^eddylift:/m);
      expect(code).toBe(0);
      const report = JSON.parse(out) as { front: number; feasible: number };
      expect(report.front).toBeGreaterThan(0);
      expect(report.feasible).toBeGreaterThanOrEqual(report.front);
    },
  );
});

/** Run by whoever set up this test or by another test, or not at all: they would run this test again, or need another machine. */
const NOT_RUN_HERE = /^(npm (ci|install|test|run bench|link)\b|git clone\b|cd |node examples\/)/;

/** Command lines of a text's ```sh blocks: comments and prompts dropped, `a && b` taken apart. */
function commandLines(markdown: string): string[] {
  const blocks = [...markdown.matchAll(/^```sh\n([\s\S]*?)^```/gm)].map(([, block]) => block!);
  return blocks
    .join('')
    .split('\n')
    .flatMap((line) => line.replace(/\s+#.*$/, '').split('&&'))
    .map((line) => line.replace(/^\s*\$ /, '').trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
}

/** README first, then the pages it leads to. */
const pages = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync(join(PROJECT, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => join('docs', name))
    .sort(),
];
const textOf = (page: string) => readFileSync(join(PROJECT, page), 'utf8');

describe('the documentation', () => {
  it('finds command lines as pages write them', () => {
    const text =
      '```sh\nnpm ci && npm start   # the demo\n# a remark\n$ npx eddylift metals\n```\n```yaml\na: b\n```\n';
    expect(commandLines(text)).toEqual(['npm ci', 'npm start', 'npx eddylift metals']);
  });

  it('starts with what installs and runs the demo, and has what tests', () => {
    const lines = commandLines(textOf('README.md'));
    expect(lines.slice(0, 2)).toEqual(['npm ci', 'npm start']);
    expect(lines).toContain('npm test');
  });

  it('keeps the README to two screens', () => {
    expect(textOf('README.md').split('\n').length).toBeLessThanOrEqual(120);
  });

  it.each(pages)('%s links to files that exist', (page) => {
    const links = Array.from(textOf(page).matchAll(/\]\(([^)#\s]+)[^)]*\)/g), ([, link]) => link!);
    const missing = links.filter(
      (link) => !/^[a-z]+:/.test(link) && !existsSync(join(PROJECT, dirname(page), link)),
    );
    expect(missing).toEqual([]);
  });

  const run = [
    ...new Set((whole ? pages : ['README.md']).flatMap((page) => commandLines(textOf(page)))),
  ].filter((line) => !NOT_RUN_HERE.test(line) && (whole || line !== 'npm start'));

  it.each(run)('runs `%s`', async (line) => {
    const { code, err } = await cli(argumentsOf(line), scratch);
    // with --json what people read goes there
    if (line.includes('--json')) expect(err).not.toMatch(/^eddylift:/m);
    else expect(err).toBe('');
    expect(code).toBe(0);
  });
});

const { scripts } = JSON.parse(readFileSync(join(PROJECT, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>;
};

/** Arguments of the command line that a README line comes down to; paths of the project made absolute. */
function argumentsOf(line: string): string[] {
  const script = /^npm (?:run )?([\w:-]+)/.exec(line)?.[1];
  const command = script === undefined ? line : (scripts[script] ?? line);
  const match = /^(?:npx eddylift|node dist\/program\/cli\.js) ?(.*)$/.exec(command);
  if (!match) throw new Error(`the README shows a command that this test cannot run: ${line}`);
  // where the shell sends the output is no argument
  return match[1]!
    .replace(/\s+>\s+[\w./-]+$/, '')
    .match(/'[^']*'|\S+/g)!
    .map((argument) => argument.replace(/^'(.*)'$/, '$1'))
    .flatMap((argument) => (argument.startsWith('studies/') ? studyFiles(argument) : [argument]));
}

function studyFiles(pattern: string): string[] {
  const names = pattern === 'studies/*.yaml' ? studies.map((name) => `studies/${name}`) : [pattern];
  return names.map((name) => join(PROJECT, name));
}
