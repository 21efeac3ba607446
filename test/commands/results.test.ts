import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { results } from '../../src/commands/results.ts';
import { watchStudy } from '../../src/session/watch-study.ts';
import { studyDifferences } from '../../src/study/study-differences.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { testIo } from '../support/test-io.ts';

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const STUDY = `study: How many turns?
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
vary: {coil.turns: [300, 400, 500]}
objectives: [{maximise: height}, {minimise: coil_mass}]
`;

beforeAll(async () => {
  writeFileSync(join(scratch, 'thick.yaml'), STUDY);
  writeFileSync(join(scratch, 'thin.yaml'), STUDY.replace('12 mm', '6 mm').replace('500]', '600]'));
  for (const name of ['thick', 'thin']) {
    const { code, err } = await cli(['run', `${name}.yaml`, '--out', `all/${name}`, '--quiet'], scratch);
    expect(err).toBe('');
    expect(code).toBe(0);
  }
  // one that was broken off: its record has no end
  mkdirSync(join(scratch, 'all/broken'));
  const record = JSON.parse(readFileSync(join(scratch, 'all/thick/run.json'), 'utf8'));
  writeFileSync(
    join(scratch, 'all/broken/run.json'),
    JSON.stringify({
      ...record,
      finished: null,
      seconds: null,
      counts: null,
      front: null,
      started: '2020-01-01T00:00:00.000Z',
    }),
  );
  mkdirSync(join(scratch, 'all/holiday pictures'));
});

describe('eddylift results', () => {
  it('lists what each result is of, when, how many designs, and how far it is', async () => {
    const io = testIo({ cwd: scratch });
    expect(await results('all', { json: true }, io)).toBe(0);
    const { results: listed } = JSON.parse(io.out());
    expect(listed.map(({ folder }: { folder: string }) => folder)).toEqual([
      'all/thin',
      'all/thick',
      'all/broken',
    ]);
    expect(listed[1]).toMatchObject({
      study: 'How many turns?',
      designs: 3,
      evaluated: 3,
      feasible: 3,
      front: 3,
    });
    expect(listed[2]).toMatchObject({ designs: 3, evaluated: 0, finished: null, front: null });
    const text = testIo({ cwd: scratch });
    await results('all', { json: false }, text);
    const lines = text.out().split('\n');
    expect(lines[0]).toMatch(/^folder +when +designs +feasible +front +state +study$/);
    expect(lines[1]).toMatch(/^all\/thin +\d{4}-\d\d-\d\d \d\d:\d\d +3 +3 +3 +finished +How many turns\?$/);
    expect(lines[3]).toMatch(/^all\/broken .* 0 of 3 +How many turns\?$/);
  });

  it('says that there is nothing, and refuses a folder that is not there', async () => {
    const io = testIo({ cwd: scratch });
    await results('all/holiday pictures', { json: false }, io);
    expect(io.out()).toBe('no results in all/holiday pictures\n');
    await expect(results('nowhere', { json: false }, io)).rejects.toThrow('there is no folder nowhere');
  });
});

describe('eddylift show', () => {
  it('tells what a run told, and writes nothing', async () => {
    const before = readFileSync(join(scratch, 'all/thick/run.json'), 'utf8');
    const { code, out } = await cli(['show', 'all/thick'], scratch);
    expect(code).toBe(0);
    expect(out).toContain('varies     coil.turns: 300, 400, 500');
    expect(out).toMatch(/3 designs in .*: 3 lift; 3 feasible, 3 on the Pareto front\./);
    expect(out).toMatch(/Floats highest: design 2 - 500 turns/);
    expect(readFileSync(join(scratch, 'all/thick/run.json'), 'utf8')).toBe(before);
  });
});

describe('eddylift diff', () => {
  it('says what in the studies differs, how the fronts do, and which designs both have', async () => {
    const { code, out } = await cli(['diff', 'all/thick', 'all/thin'], scratch);
    expect(code).toBe(0);
    expect(out).toMatch(/rig\.plate\.thickness +12 mm +6 mm/);
    expect(out).toMatch(/vary\.coil\.turns +\[300, 400, 500\] +\[300, 400, 600\]/);
    expect(out).toMatch(/best: maximise height +\S+ mm \(design 2\) +\S+ mm \(design 2\)/);
    // 300 and 400 turns are in both, 500 is not
    expect(out).toContain(
      'Of 3 designs on the front of all/thick, 2 are in all/thin, too: 2 on its front, 0 not feasible there.',
    );
    const cell = (folder: string, row: number, column: string) => {
      const [head, ...rows] = readFileSync(join(scratch, folder, 'designs.csv'), 'utf8')
        .trim()
        .split(/\r?\n/);
      return Number(rows[row]!.split(',')[head!.split(',').indexOf(column)]);
    };
    const [was, is] = [cell('all/thick', 1, 'height_mm'), cell('all/thin', 1, 'height_mm')].map((mm) =>
      Number(mm.toPrecision(4)),
    );
    expect(out).toContain(`1  1  height: ${was} mm -> ${is} mm`);
  });

  it('takes studies for the same that differ in layout and comments alone', () => {
    expect(
      studyDifferences(STUDY, `# again\n${STUDY.replace('{current: 12 A}', '\n  current: 12 A')}`),
    ).toEqual([]);
    expect(studyDifferences(STUDY, `${STUDY}notes: x\n`)).toEqual([{ path: 'notes', one: null, other: 'x' }]);
  });
});

describe('a watched study', () => {
  it('is run now and after each change of its content, never half written, until somebody stops it', async () => {
    const stop = new AbortController();
    const io = testIo({ cwd: scratch, signal: stop.signal });
    const file = join(scratch, 'watched.yaml');
    writeFileSync(file, 'one');
    const seen: string[] = [];
    await watchStudy('watched.yaml', io, async () => {
      seen.push(readFileSync(file, 'utf8'));
      if (seen.length === 3) return stop.abort();
      // saved as it is in two steps, as some editors do, then changed
      writeFileSync(file, '');
      setTimeout(() => {
        writeFileSync(file, seen.at(-1)!);
        setTimeout(() => writeFileSync(file, `${seen.at(-1)} more`), 50);
      }, 20);
    });
    expect(seen).toEqual(['one', 'one more', 'one more more']);
  });
});
