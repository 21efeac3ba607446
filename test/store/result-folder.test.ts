import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UsageError } from '../../src/errors.ts';
import { asFolderError, FolderError } from '../../src/store/folder-error.ts';
import { finishResult, inspectFolder, openResult, resultFolderName } from '../../src/store/result-folder.ts';
import { batchesOf, batchOf, workshopStudy } from '../support/batches.ts';
import { temporaryFolder } from './temporary-folder.ts';
import { writeRows } from './write-rows.ts';

const study = workshopStudy();
const origin = { code: 'c0de', catalogue: 'ca7a', engine: 'V8 11.3' };
const facts = {
  version: '0.1.0',
  origin,
  node: 'v20.0.0',
  threads: 2,
  seed: null,
  started: '2025-03-01T08:00:00.000Z',
};
const end = { finished: '2025-03-01T08:00:09.500Z', seconds: 9.5, search: null, front: null };
const counts = {
  designs: 0,
  statuses: { lifts: 0, rests: 0, clamped: 0, impossible: 0, failed: 0 },
  feasible: 0,
  front: 0,
};

/** Opens a folder as a run does, and leaves it. */
async function begin(folder: string, of = study, given = facts): Promise<void> {
  const result = await openResult(folder, of, given, () => {});
  await result.close();
}

const RECORD = JSON.stringify({ format: 1, study: { title: study.title, hash: study.hash } });

describe('resultFolderName', () => {
  it.each([
    [
      'Which wire and how many turns for the foyer table?',
      'which-wire-and-how-many-turns-for-the-foyer-tabl',
    ],
    ['Schwebetisch, Größe 2', 'schwebetisch-gro-e-2'],
    ['../../etc/passwd', 'etc-passwd'],
    ['.hidden', 'hidden'],
    ['a\u0000b\nc\\d', 'a-b-c-d'],
    ['浮上', 'study'],
    ['', 'study'],
  ])('makes of %j the slug %j', (title, slug) => {
    expect(resultFolderName({ title, hash: study.hash })).toBe(`${slug}-ab12cd34`);
  });

  it('is one safe path segment of bounded length for any title', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (title) => {
        expect(resultFolderName({ title, hash: study.hash })).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*-ab12cd34$/);
        expect(resultFolderName({ title, hash: study.hash }).length).toBeLessThanOrEqual(57);
      }),
    );
  });
});

describe('a result folder', () => {
  it('goes from absent to unfinished to finished', async () => {
    const folder = join(temporaryFolder(), 'below', 'result');
    expect(await inspectFolder(folder)).toEqual({ kind: 'absent' });
    await begin(folder);
    const { title, hash, text } = study;
    const found = { kind: 'result', format: 4, title, hash, text, origin };
    expect(await inspectFolder(folder)).toEqual({ ...found, designs: null, finished: false });
    await finishResult(folder, study, facts, { ...counts, designs: 8 }, end);
    expect(await inspectFolder(folder)).toEqual({ ...found, designs: 8, finished: true });
  });

  it('holds the study as run and the record of the run', async () => {
    const folder = temporaryFolder();
    expect(await inspectFolder(folder)).toEqual({ kind: 'empty' });
    await begin(folder);
    await finishResult(folder, study, facts, { ...counts, designs: 8 }, end);
    expect(readFileSync(join(folder, 'study.yaml'), 'utf8')).toBe(study.text);
    expect(JSON.parse(readFileSync(join(folder, 'run.json'), 'utf8'))).toEqual({
      format: 4,
      eddylift: '0.1.0',
      origin,
      node: 'v20.0.0',
      study: { title: study.title, hash: study.hash, text: study.text },
      seed: null,
      threads: 2,
      started: facts.started,
      finished: end.finished,
      seconds: 9.5,
      counts: { ...counts, designs: 8 },
      search: null,
      front: null,
      objectives: [
        { text: 'height', sense: 'maximise', unit: 'mm' },
        { text: 'coil_mass', sense: 'minimise', unit: 'kg' },
      ],
    });
  });

  it('is refused when it holds another study, which is named', async () => {
    const folder = temporaryFolder();
    await begin(folder);
    const other = workshopStudy({ title: 'Another', hash: 'f'.repeat(64) });
    const refused = begin(folder, other);
    await expect(refused).rejects.toThrow(UsageError);
    await expect(refused).rejects.toThrow(
      `${folder} holds the result of another study, '${study.title}' (ab12cd34); choose another folder`,
    );
    expect(readFileSync(join(folder, 'study.yaml'), 'utf8')).toBe(study.text);
  });

  it.each([
    ['code', 'another version of the physics (c0de, now x)'],
    ['catalogue', 'another catalogue of metals and wires (ca7a, now x)'],
    ['engine', 'another JavaScript engine (V8 11.3, now x)'],
  ])('is refused when its rows follow from another %s, which is named', async (key, words) => {
    const folder = temporaryFolder();
    await begin(folder);
    const refused = begin(folder, study, { ...facts, origin: { ...origin, [key]: 'x' } });
    await expect(refused).rejects.toMatchObject({ code: 'OTHER_ORIGIN' });
    await expect(refused).rejects.toThrow(
      `${folder} was begun with ${words}, and its rows would not fit those of now; --fresh starts over in a new place`,
    );
  });

  it('is refused when an older version without parts began it', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'run.json'), RECORD);
    await expect(begin(folder)).rejects.toThrow(`${folder} was begun with an older version`);
    expect(readdirSync(folder)).toEqual(['run.json']);
  });

  it('keeps the parts of a run that was broken off', async () => {
    const folder = temporaryFolder();
    const first = await openResult(folder, study, facts, () => {});
    const rows = batchOf(study, [{ quantities: { height: 0.0123 } }, {}]);
    await first.parts.write(0, [{ rows, report: null }]);
    await first.close();
    const second = await openResult(folder, study, facts, () => {});
    expect(second.parts.list()).toHaveLength(1);
    expect((await second.parts.read(0))!.rows).toEqual(rows);
    await second.close();
  });

  it('names another study without its control and direction characters', async () => {
    const folder = temporaryFolder();
    await begin(folder, workshopStudy({ title: 'a\u001b[31mb\u202ec' }));
    expect(await inspectFolder(folder)).toMatchObject({ title: 'a [31mb c' });
  });

  it.each([
    ['a stranger file', { 'notes.txt': 'mine' }],
    ['a run.json of something else', { 'run.json': '{"format": "x"}' }],
    ['a run.json that is no JSON', { 'run.json': '\u0000' }],
    ['a run.json that is null', { 'run.json': 'null' }],
    [
      'a run.json with a hash that is a path',
      { 'run.json': '{"format":1,"study":{"title":"x","hash":"../x"}}' },
    ],
    ['a run.json of many megabytes', { 'run.json': `${RECORD}${' '.repeat(2_000_000)}` }],
  ])('is refused with %s in it, which stays', async (_, files) => {
    const folder = temporaryFolder();
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
    expect(await inspectFolder(folder)).toEqual({ kind: 'foreign', entries: Object.keys(files) });
    await expect(begin(folder)).rejects.toMatchObject({ code: 'NOT_A_RESULT' });
    for (const [name, text] of Object.entries(files))
      expect(readFileSync(join(folder, name), 'utf8')).toBe(text);
  });

  it('is refused when a newer version wrote it', async () => {
    const folder = temporaryFolder();
    writeFileSync(
      join(folder, 'run.json'),
      JSON.stringify({ format: 5, study: { title: 'x', hash: study.hash } }),
    );
    await expect(inspectFolder(folder)).rejects.toMatchObject({ code: 'NEWER_FORMAT' });
  });

  it('loses the tables of an earlier run when a new one starts, and what killed processes left', async () => {
    const folder = temporaryFolder();
    await begin(folder);
    await writeRows(folder, { study, batches: batchesOf(study, [{}], [1]), front: [], csv: true });
    // No process has this id: it is above the largest that Linux gives out.
    writeFileSync(join(folder, '.designs.csv.4194305-0.tmp'), 'half');
    writeFileSync(join(folder, `.front.csv.${process.pid}-99999.tmp`), 'in use');
    await begin(folder);
    expect(readdirSync(folder).sort()).toEqual([
      `.front.csv.${process.pid}-99999.tmp`,
      'parts',
      'run.json',
      'study.yaml',
    ]);
  });

  it('counts as empty with nothing but half-written files in it', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, '.run.json.4194305-0.tmp'), '{');
    expect(await inspectFolder(folder)).toEqual({ kind: 'empty' });
  });

  it('never writes through a link that stands under a file name of its own', async () => {
    const outside = join(temporaryFolder(), 'outside.txt');
    writeFileSync(outside, 'untouched');
    const folder = temporaryFolder();
    await begin(folder);
    for (const name of ['designs.csv', 'front.csv']) symlinkSync(outside, join(folder, name));
    await writeRows(folder, { study, batches: batchesOf(study, [{}], [1]), front: [0], csv: true });
    expect(readFileSync(outside, 'utf8')).toBe('untouched');
    expect(readFileSync(join(folder, 'front.csv'), 'utf8')).toMatch(/^design,/);
  });

  it.each(['parts', 'figures'])(
    'is refused when its %s are a link, and what that leads to stays',
    async (name) => {
      const outside = temporaryFolder();
      const kept = '.000000000.arrow.4194305-0.tmp';
      writeFileSync(join(outside, kept), 'untouched');
      const folder = temporaryFolder();
      await begin(folder);
      rmSync(join(folder, name), { recursive: true, force: true });
      symlinkSync(outside, join(folder, name));
      const record = readFileSync(join(folder, 'run.json'), 'utf8');
      const refused = begin(folder, study, { ...facts, threads: 7 });
      await expect(refused).rejects.toMatchObject({ code: 'LINKED' });
      await expect(refused).rejects.toThrow(`${join(folder, name)} is a link, and a run writes only into`);
      expect(readdirSync(outside)).toEqual([kept]);
      expect(readFileSync(join(folder, 'run.json'), 'utf8')).toBe(record);
    },
  );

  it('says what is wrong with a path through a file, to a file, and through a broken link', async () => {
    const parent = temporaryFolder();
    writeFileSync(join(parent, 'file'), '');
    symlinkSync(join(parent, 'nowhere', 'at', 'all'), join(parent, 'link'));
    for (const path of ['file', 'file/result']) {
      const folder = join(parent, path);
      await expect(begin(folder)).rejects.toThrow(
        `cannot write the result to ${folder}: part of the path is a file, not a folder`,
      );
    }
    await expect(begin(join(parent, 'link'))).rejects.toThrow(FolderError);
    expect(existsSync(join(parent, 'nowhere'))).toBe(false);
  });

  it('leaves no temporary file when a file cannot be put in place', async () => {
    const folder = temporaryFolder();
    await begin(folder);
    mkdirSync(join(folder, 'front.csv'));
    const writing = writeRows(folder, { study, batches: [], front: [], csv: true });
    await expect(writing).rejects.toMatchObject({ code: 'EISDIR' });
    expect(readdirSync(folder).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });
});

describe('asFolderError', () => {
  it.each([
    ['ENOSPC', 'the disk is full'],
    ['EROFS', 'the disk is read-only'],
    ['EACCES', 'no permission'],
  ])('words %s', (code, why) => {
    const error = Object.assign(new Error('x'), { code, syscall: 'write' });
    const worded = asFolderError(error, 'results/a') as FolderError;
    expect(worded).toBeInstanceOf(UsageError);
    expect(worded.message).toBe(`cannot write the result to results/a: ${why}`);
    expect(worded.code).toBe(code);
  });

  it('lets any other error through', () => {
    const bug = new TypeError('x is not a function');
    expect(asFolderError(bug, 'results/a')).toBe(bug);
  });
});
