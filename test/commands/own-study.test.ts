import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { card } from '../../src/commands/card.ts';
import { compare } from '../../src/commands/compare.ts';
import { EXIT, type Io } from '../../src/session/io.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

const OLD = join(PROJECT, 'test/fixtures/old-result');
const STUDY = readFileSync(join(OLD, 'study.yaml'), 'utf8');

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

beforeAll(async () => {
  writeFileSync(join(scratch, 'small.yaml'), STUDY);
  writeFileSync(join(scratch, 'measured.csv'), 'current_A,height_mm\n12,14\n');
  const run = await cli(['run', 'small.yaml', '--out', 'new', '--quiet', '--threads', '1'], scratch);
  expect(run.code).toBe(EXIT.done);
});

/** A copy of a result whose study differs. */
function edited(source: string, study: string | Uint8Array): string {
  const folder = join(scratch, 'edited');
  rmSync(folder, { recursive: true, force: true });
  cpSync(source, folder, { recursive: true });
  writeFileSync(join(folder, 'study.yaml'), study);
  return 'edited';
}

const READERS: readonly (readonly [string, (place: string, io: Io) => Promise<number>])[] = [
  ['card', (place, io) => card(place, { design: 3, json: false, html: false }, io)],
  [
    'compare',
    (place, io) =>
      compare(place, 'measured.csv', { design: 3, free: [], out: null, json: false, html: false }, io),
  ],
];

const SWAPPED = STUDY.replace('coil.metal: [aluminium, copper]', 'coil.metal: [copper, aluminium]');

describe.each(READERS)('%s of a result', (_, read) => {
  it.each([
    ['a changed standoff', STUDY.replace('thickness: 2 mm', 'thickness: 3 mm'), 'thickness: 3 mm'],
    ['swapped metals', SWAPPED, '[copper, aluminium]'],
    ['a changed comment', `${STUDY}# one more\n`, '# one more'],
    ['half of it', STUDY.slice(0, STUDY.length / 2), 'was'],
    ['nothing', '', 'line 1 is'],
  ])('is refused with %s in its study, and the line is named', async (__, study, shown) => {
    const io = testIo({ cwd: scratch });
    const place = edited(join(scratch, 'new'), study);
    await expect(read(place, io)).rejects.toThrow(
      /^edited cannot be trusted: study\.yaml is not the study that was run: line \d+ is .* and was .*$/,
    );
    await expect(read(place, io)).rejects.toThrow(shown);
    expect(io.out()).toBe('');
  });

  it('is refused also where the study is named by itself', async () => {
    const place = join(edited(join(scratch, 'new'), SWAPPED), 'study.yaml');
    await expect(read(place, testIo({ cwd: scratch }))).rejects.toThrow('line 19 is');
  });

  it('is refused where an older version kept no copy of its study, with both digests', async () => {
    await expect(read(edited(OLD, SWAPPED), testIo({ cwd: scratch }))).rejects.toThrow(
      /^edited cannot be trusted: study\.yaml is not the study that was run: its SHA-256 begins with [0-9a-f]{8}, that of the run's study with 62942270$/,
    );
  });

  it('says that the record is damaged where its hash is not that of the study', async () => {
    const place = edited(join(scratch, 'new'), STUDY);
    const record = join(scratch, place, 'run.json');
    writeFileSync(record, readFileSync(record, 'utf8').replace('"hash": "62942270', '"hash": "62942271'));
    await expect(read(place, testIo({ cwd: scratch }))).rejects.toThrow(
      'edited cannot be trusted: run.json is damaged: the hash that it names is not that of the study',
    );
  });
});

describe('a result whose study nobody changed', () => {
  it.each([['card'], ['compare', 'measured.csv']])('is read by %s', async (command, ...rest) => {
    const place = edited(join(scratch, 'new'), STUDY);
    const { code, err } = await cli([command!, place, ...rest, '--design', '3'], scratch);
    expect(err).toBe('');
    expect(code).toBe(EXIT.done);
  });
});

describe('front of a result', () => {
  it('is refused with swapped metals in its study', async () => {
    const { code, out, err } = await cli(['front', edited(join(scratch, 'new'), SWAPPED)], scratch);
    expect(code).toBe(EXIT.usage);
    expect(out).toBe('');
    expect(err).toBe(
      'eddylift: edited cannot be trusted: study.yaml is not the study that was run: line 19 is `coil.metal: [copper, aluminium]` and was `coil.metal: [aluminium, copper]`\n',
    );
  });

  it('is refused when one of its parts is gone', async () => {
    const place = edited(join(scratch, 'new'), STUDY);
    rmSync(join(scratch, place, 'parts'), { recursive: true });
    const { code, err } = await cli(['front', place], scratch);
    expect(code).toBe(EXIT.usage);
    expect(err).toMatch(/^eddylift: [^\n]*\n$/);
  });
});
