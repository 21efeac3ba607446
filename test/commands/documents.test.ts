import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { documentsSchemaText } from '../../src/documents/documents-schema.ts';
import { CLI, cli, scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

/** With --json every command prints one document, which the shipped schema describes. */

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const STUDY = readFileSync(join(PROJECT, 'studies/metal-and-turns.yaml'), 'utf8').replace(
  /coil\.turns: .*/,
  'coil.turns: [400, 440]',
);

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'study.yaml'), STUDY);
  writeFileSync(join(folder, 'wrong.yaml'), STUDY.replace('coil.turns:', 'coil.turn:'));
  writeFileSync(join(folder, 'measured.csv'), 'current_A,height_mm\n12,14\n13,19\n14,23\n');
  await cli(['run', 'study.yaml', '--out', 'result'], folder);
});

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
/** As shipped, a schema lets keys be added; here none that it does not know. */
const closed = ajv.compile(JSON.parse(documentsSchemaText({ closed: true })));
const shipped = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
  JSON.parse(readFileSync(join(PROJECT, 'schemas/documents.schema.json'), 'utf8')),
);

function documentOf(out: string): Record<string, unknown> {
  expect(out.endsWith('\n')).toBe(true);
  // the whole of stdout is the document
  const document = JSON.parse(out) as Record<string, unknown>;
  expect(closed(document), JSON.stringify(closed.errors?.slice(0, 5))).toBe(true);
  expect(shipped(document)).toBe(true);
  return document;
}

const DESIGN = ['--design', '5'];

describe('with --json', () => {
  it.each([
    ['check', ['study.yaml'], 0],
    ['check', ['study.yaml', 'wrong.yaml', 'missing.yaml'], 2],
    ['run', ['study.yaml', '--out', 'fresh'], 0],
    ['run', ['study.yaml', '--out', 'result'], 0],
    ...(whole ? ([['run', ['study.yaml', 'wrong.yaml', '--out', 'two'], 2]] as const) : []),
    ['run', ['wrong.yaml'], 2],
    ['card', ['result', '--design', 'best'], 0],
    ['card', ['study.yaml', ...DESIGN, '--set', 'plate.thickness=8 mm'], 0],
    ['compare', ['study.yaml', 'measured.csv', ...DESIGN], 0],
    ['compare', ['study.yaml', 'measured.csv', ...DESIGN, '--free', 'standoff=2mm±1mm'], 0],
    ['quantities', [], 0],
    ['metals', [], 0],
    ['results', ['.'], 0],
    ['front', ['result', '--limit', 'coil_mass <= 4 kg'], 0],
    ['improve', ['study.yaml', ...DESIGN, '--aim', 'height >= 30 mm'], 0],
    ['motion', ['study.yaml', ...DESIGN, '--for', '50ms', '--out', 'm'], 0],
    ['warm', ['study.yaml', ...DESIGN, '--for', '60s', '--out', 'w'], 0],
  ] as const)('%s %j prints one document, which the schema describes', async (command, args, exit) => {
    const { out, code } = await cli([command, ...args, '--json'], folder);
    expect(code).toBe(exit);
    expect(documentOf(out)).toMatchObject({ document: command, format: 1 });
  });

  it.each([
    ['a study that is not there', ['card', 'nowhere.yaml'], /^cannot read nowhere\.yaml/],
    ['a design that is not there', ['card', 'study.yaml', '--design', '100000'], /^there is no design/],
    ['an option that is not there', ['card', 'study.yaml', '--rust'], /^unknown option '--rust'/],
  ])('%s ends in a document with the exit code and what stderr tells', async (_, args, message) => {
    const { out, err, code } = await cli([...args, '--json'], folder);
    const document = documentOf(out);
    expect(document).toMatchObject({ document: 'error', exit_code: 2 });
    const [problem] = document.problems as { message: string }[];
    expect(problem!.message).toMatch(message);
    expect(err).toContain(problem!.message);
    expect(code).toBe(2);
  });

  it('a refused study has its problems with line and column', async () => {
    const { out } = await cli(['check', 'wrong.yaml', '--json'], folder);
    const { problems } = documentOf(out);
    const line = STUDY.split('\n').findIndex((text) => text.includes('coil.turns:')) + 1;
    expect(problems).toMatchObject([
      { severity: 'error', file: 'wrong.yaml', line, length: 'coil.turn'.length, code: expect.any(String) },
    ]);
  });

  it.runIf(whole)(
    'a finished study run again has the counts of its result, and text goes to stderr',
    async () => {
      const first = documentOf((await cli(['run', 'study.yaml', '--out', 'again', '--json'], folder)).out);
      const { out, err } = await cli(['run', 'study.yaml', '--out', 'again', '--json'], folder);
      expect(err).toContain('already done');
      const second = documentOf(out);
      expect(second).toMatchObject({ status: 'already done', folder: 'again' });
      expect(first.designs).toBeGreaterThan(0);
      for (const key of ['designs', 'feasible', 'front', 'seconds']) expect(second[key]).toBe(first[key]);
    },
  );

  it('help is help', async () => {
    const { out, code } = await cli(['card', '--json', '--help'], folder);
    expect(code).toBe(0);
    expect(out).toMatch(/^Usage: eddylift card/);
  });
});

describe('a study from stdin', () => {
  const piped = (args: readonly string[], input: string) =>
    spawnSync(process.execPath, [CLI, ...args], { cwd: folder, input, encoding: 'utf8' });

  it('is named - and read as any file is', () => {
    const { stdout } = piped(['check', '-', '--json'], STUDY);
    expect(documentOf(stdout)).toMatchObject({ studies: [{ file: '-', ok: true }] });
    const { stdout: card } = piped(['card', '-', ...DESIGN, '--json'], STUDY);
    expect(documentOf(card)).toMatchObject({ design: 5, status: 'lifts' });
    const wrong = piped(['check', '-'], STUDY.replace('coil.turns:', 'coil.turn:'));
    expect(wrong.stderr).toMatch(/^-:\d+:\d+: found/);
    expect(wrong.status).toBe(2);
  });

  it.runIf(whole)('gives the tables of its file', () => {
    expect(piped(['run', '-', '--out', 'piped'], STUDY).status).toBe(0);
    const bytes = (from: string) => readFileSync(join(folder, from, 'designs.csv'));
    expect(bytes('piped').equals(bytes('result'))).toBe(true);
  });

  it.runIf(whole)('may stand among others, whose forecast looks at it before its turn', () => {
    const { status, stdout } = piped(['run', '-', 'study.yaml', '--out', 'both', '--json'], STUDY);
    expect(status).toBe(0);
    expect(documentOf(stdout)).toMatchObject({ studies: [{ file: '-' }, { file: 'study.yaml' }] });
  });

  it('is refused with --watch, and when nothing is in it', () => {
    expect(piped(['run', '-', '--watch'], STUDY).stderr).toMatch(/--watch is for a study in a file/);
    expect(piped(['check', '-'], '').status).toBe(2);
  });
});
