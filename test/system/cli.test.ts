import { spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CLI, cli, type Ended, scratchFolder, start } from '../support/cli.ts';
import { designsKept } from '../support/disturbed-study.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

/** Past 300 lines: what the command line answers, command by command, from one folder of studies. */

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The rig that floats; `vary` and more below it. */
function study(title: string, rest: string): string {
  return `study: ${title}
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
objectives: [{maximise: height / current}, {minimise: coil_mass}]
${rest}`;
}

beforeAll(() => {
  writeFileSync(
    join(folder, 'small.yaml'),
    study(
      'Small study',
      `vary:
  coil.metal: [aluminium, copper]
  coil.turns: {from: 320, to: 520, step: 1}
  plate.thickness: [3 mm, 12 mm]
limits: [coil_mass <= 3 kg]`,
    ),
  );
  writeFileSync(join(folder, 'tiny.yaml'), study('Tiny study', 'vary: {coil.turns: [400, 440]}'));
  writeFileSync(
    join(folder, 'long.yaml'),
    study(
      'Long study',
      `vary:
  coil.turns: {from: 300, to: 600, step: 1}
  plate.thickness: {from: 1 mm, to: 12 mm, count: 300}
  coil.inner_radius: {from: 40 mm, to: 60 mm, count: 30}`,
    ),
  );
  writeFileSync(join(folder, 'typo.yaml'), study('Typo', 'vary: {coil.turn: [400, 440]}'));
  writeFileSync(
    join(folder, 'nowhere.yaml'),
    study('Fits nowhere', 'vary:\n  coil.layers: [2]\n  coil.turns: [1]\n'),
  );
});

function expectNoTrace({ out, err }: Ended): void {
  expect(out + err).not.toMatch(/\n\s+at |node:internal|\.[jt]s:\d+/);
}

describe.concurrent('the command line', () => {
  it.each([[['--help']], [['run', '--help']], [['--version']]])(
    'answers %j with exit code 0',
    async (args) => {
      const ended = await cli(args, folder);
      expect(ended.code).toBe(0);
      expect(ended.err).toBe('');
    },
  );

  it.each([
    [['rnu'], "unknown command 'rnu'"],
    [['run'], "missing required argument 'study'"],
    [['check'], "missing required argument 'study'"],
    [['run', 'small.yaml', '--thread', '2'], "unknown option '--thread'"],
    [['run', 'small.yaml', '--threads', '0'], 'whole number from 1 to'],
    [['run', 'small.yaml', '--threads', '1.5'], 'whole number from 1 to'],
    [['run', 'small.yaml', '--threads', 'all'], 'whole number from 1 to'],
    [['run', 'small.yaml', '--out', ''], 'the name of a folder'],
    [['run', 'missing.yaml'], 'cannot read missing.yaml: there is no such file'],
    [['check', '.'], 'that is a folder'],
  ])('refuses %j with exit code 2 and says why', async (args, why) => {
    const ended = await cli(args, folder);
    expect(ended.code).toBe(2);
    expect(ended.err).toMatch(/^eddylift: /);
    expect(ended.err).toContain(why);
    expectNoTrace(ended);
  });

  it.each([[[]], [['run']], [['front']], [['card']], [['compare']]])(
    'fits the help of %j into 80 columns, without defaults that say nothing',
    async (command) => {
      const { out } = await cli([...command, '--help'], folder);
      // a word that is longer than its column stands alone
      const lines = out.split('\n').filter((line) => /\S\s+\S/.test(line));
      expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(80);
      expect(out).not.toContain('default: []');
    },
  );

  it('prints its help and exit code 2 when nothing is asked', async () => {
    const ended = await cli([], folder);
    expect(ended.code).toBe(2);
    expect(ended.err).toContain('Usage: eddylift');
  });

  it('goes on in silence when the reader of its pipe has enough', async () => {
    const { child, ended } = start(['quantities'], folder);
    child.stdout!.destroy();
    const { code, err } = await ended;
    expect(err).toBe('');
    expect(code).toBe(0);
  });

  it.skipIf(process.platform === 'win32')('can be piped to head', () => {
    const { stdout, stderr } = spawnSync(
      'sh',
      ['-c', '"$0" "$1" metals | head -n 1', process.execPath, CLI],
      {
        encoding: 'utf8',
      },
    );
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^Metals that a study may name/);
  });
});

describe('check', () => {
  it('says what a run would do', async () => {
    const { code, out, err } = await cli(['check', 'small.yaml'], folder);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toMatch(/small\.yaml: no problems\n {2}Small study\n {2}804 designs, /);
    expect(out).toMatch(/varies +coil\.metal +aluminium, copper\n +coil\.turns +320 to 520, 201 values/);
    expect(out).toMatch(/limits +coil_mass <= 3 kg\n +objectives +maximise height \/ current\n/);
  });

  it('points at what is wrong and goes on with the next study', async () => {
    const ended = await cli(['check', 'typo.yaml', 'tiny.yaml'], folder);
    expect(ended.code).toBe(2);
    expect(ended.err).toMatch(/^typo\.yaml:10:8: found .*coil\.turn.*coil\.turns/);
    expect(ended.err).toContain('^^^^^^^^^');
    expect(ended.out).toContain('tiny.yaml: no problems');
    expectNoTrace(ended);
  });

  it('refuses a study none of whose designs can be built, and points at the input to blame', async () => {
    const { code, err } = await cli(['check', 'nowhere.yaml'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/^nowhere\.yaml:11:3: found no design of this study is possible: more layers than/);
  });

  it('refuses bad studies without a stack trace, and prints nothing on stdout', async () => {
    const bad = join(PROJECT, 'test/fixtures/bad-studies');
    const ended = await cli(['check', ...readdirSync(bad)], bad);
    expect(ended.code).toBe(2);
    expect(ended.out).toBe('');
    expectNoTrace(ended);
  });
});

describe('run', () => {
  const tables = (at: string) => readdirSync(join(folder, at)).sort();
  const bytes = (...path: string[]) => readFileSync(join(folder, ...path));

  it('writes its tables to the folder named by --out and says what it found and where', async () => {
    const { code, out, err } = await cli(['run', 'small.yaml', '--out', 'one', '--threads', '1'], folder);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toMatch(/^Small study\n804 designs, .* on 1 thread\n/);
    expect(out).toMatch(
      /804 designs in [\d.]+ s: \d+ lift, \d+ rest; \d+ feasible, \d+ on the Pareto front\./,
    );
    expect(out).toMatch(/on the front, highest height \/ current first:\n/);
    expect(out).toContain('Best compromise');
    expect(out).toMatch(/\nReport: one\/report.html\nResults: one\n$/);
    expect(tables('one')).toEqual([
      'designs.csv',
      'designs.csv-metadata.json',
      'designs.parquet',
      'figures',
      'front.csv',
      'front.csv-metadata.json',
      'front.xlsx',
      'parts',
      'plate_heat.csv',
      'plate_heat.csv-metadata.json',
      'report.html',
      'run.json',
      'study.yaml',
    ]);
    expect(bytes('one', 'study.yaml')).toEqual(bytes('small.yaml'));
  });

  it('writes the same bytes with two threads as with one', async () => {
    const { code } = await cli(['run', 'small.yaml', '--out', 'two', '--threads', '2'], folder);
    expect(code).toBe(0);
    for (const table of tables('one').filter(
      (name) => /\.(csv|json|parquet|xlsx)$/.test(name) && name !== 'run.json',
    )) {
      expect(bytes('two', table).equals(bytes('one', table)), table).toBe(true);
    }
    expect(tables('two/figures')).toEqual(tables('one/figures'));
    for (const figure of tables('one/figures')) {
      expect(bytes('two/figures', figure).equals(bytes('one/figures', figure)), figure).toBe(true);
    }
    expect(bytes('one', 'designs.csv').toString().split('\n')).toHaveLength(804 + 2);
  });

  it('says that a result is there already, and touches nothing', async () => {
    const before = bytes('one', 'run.json');
    const { code, out } = await cli(['run', 'small.yaml', '--out', 'one'], folder);
    expect(code).toBe(0);
    expect(out).toContain('already done, see one');
    expect(bytes('one', 'run.json')).toEqual(before);
  });

  it.runIf(whole)(
    'says so when another version computed the result that is there, and touches nothing',
    async () => {
      await cli(['run', 'tiny.yaml', '--out', 'old', '--quiet'], folder);
      const record = JSON.parse(bytes('old', 'run.json').toString());
      const now = record.origin.catalogue;
      const older = JSON.stringify({ ...record, origin: { ...record.origin, catalogue: 'c0ffee' } });
      writeFileSync(join(folder, 'old', 'run.json'), older);
      const { code, out } = await cli(['run', 'tiny.yaml', '--out', 'old', '--quiet'], folder);
      expect(code).toBe(0);
      expect(out).toBe(
        `tiny.yaml: already done, see old, but with another catalogue of metals and wires (c0ffee, now ${now}); --fresh computes it anew in a new place\n`,
      );
      expect(bytes('old', 'run.json').toString()).toBe(older);
    },
  );

  it.runIf(whole)('starts over in a new place with --fresh', async () => {
    const { code, out } = await cli(['run', 'small.yaml', '--out', 'one', '--fresh'], folder);
    expect(code).toBe(0);
    expect(out).toContain('Results: one-2\n');
    expect(bytes('one-2', 'designs.csv').equals(bytes('one', 'designs.csv'))).toBe(true);
  });

  it("refuses a folder with another study's result, or with anything else", async () => {
    const other = await cli(['run', 'tiny.yaml', '--out', 'one'], folder);
    expect(other.code).toBe(2);
    expect(other.err).toContain("holds the result of another study, 'Small study'");
    mkdirSync(join(folder, 'photos'));
    writeFileSync(join(folder, 'photos/coil.jpg'), '');
    const foreign = await cli(['run', 'tiny.yaml', '--out', 'photos'], folder);
    expect(foreign.code).toBe(2);
    expect(foreign.err).toContain('coil.jpg');
    expect(tables('photos')).toEqual(['coil.jpg']);
  });

  it.each([
    'small.yaml',
    'small.yaml/below',
    // a place where nobody can make a folder
    ...(process.platform === 'linux' ? ['/proc/eddylift'] : []),
  ])('says in one line that %s cannot be a result folder', async (out) => {
    const { code, err } = await cli(['run', 'tiny.yaml', '--out', out], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/^eddylift: cannot write the result to [^\n]*\n$/);
  });

  it('says why, when no design meets every limit', async () => {
    writeFileSync(
      join(folder, 'heavy.yaml'),
      study('Too heavy', 'vary: {coil.turns: [400, 440]}\nlimits: [coil_mass <= 1 kg]'),
    );
    const { code, out } = await cli(['run', 'heavy.yaml', '--out', 'heavy'], folder);
    expect(code).toBe(0);
    expect(out).toContain("The limit 'coil_mass <= 1 kg' shuts most designs out");
    expect(
      readFileSync(join(folder, 'heavy', 'front.csv'), 'utf8')
        .trim()
        .split('\n'),
    ).toHaveLength(1);
  });

  it('uses results/<slug>-<hash8> when it is not told where', async () => {
    const { code, out } = await cli(['run', 'tiny.yaml'], folder);
    expect(code).toBe(0);
    expect(out).toMatch(/\nResults: results\/tiny-study-[0-9a-f]{8}\n$/);
  });

  it('writes nothing for a study with problems', async () => {
    const { code } = await cli(['run', 'typo.yaml', '--out', 'typo'], folder);
    expect(code).toBe(2);
    expect(existsSync(join(folder, 'typo'))).toBe(false);
  });

  it('runs the other studies when one fails, and ends with the worst exit code', async () => {
    const files = ['typo.yaml', 'missing.yaml', 'tiny.yaml'];
    const { code, out, err } = await cli(['run', ...files, '--out', 'several'], folder);
    expect(code).toBe(2);
    expect(err).toContain('typo.yaml:10:8');
    expect(err).toContain('cannot read missing.yaml');
    expect(out).toMatch(
      /^3 studies: 2 designs, .* on \d+ threads?\nCannot be run \(eddylift check shows why\): typo\.yaml, missing\.yaml\n/,
    );
    expect(out).toContain('Study 3 of 3: tiny.yaml\n');
    expect(out).toContain('Results: several/tiny-study-');
    expect(tables('several')).toEqual(['batch.json', expect.stringMatching(/^tiny-study-/)]);
  });

  it.runIf(whole)('sums up several studies at the end, in batch.json, and in one JSON object', async () => {
    const files = ['tiny.yaml', 'typo.yaml', 'small.yaml'];
    const run = ['run', ...files, '--out', 'night', '--quiet', '--json'];
    const { code, out, err } = await cli(run, folder);
    expect(code).toBe(2);
    expect(err).toMatch(/\n3 studies in [\d.]+ s, 2 without trouble:\n {2}study +status +designs +feasible/);
    expect(err).toMatch(/\n {2}typo\.yaml +refused +- +- +- +- +-\n/);
    const report = JSON.parse(out);
    expect(report).toMatchObject({ status: 'refused', designs: 806, folder: 'night' });
    const record = JSON.parse(bytes('night', 'batch.json').toString());
    expect(record.studies).toEqual(report.studies);
    expect(record.studies).toMatchObject([
      { file: 'tiny.yaml', status: 'done', code: 0, designs: 2 },
      { file: 'typo.yaml', status: 'refused', code: 2, designs: null, folder: null },
      { file: 'small.yaml', status: 'done', code: 0, designs: 804 },
    ]);
    expect(record.finished).toEqual(expect.any(String));
    const again = await cli(run, folder);
    expect(JSON.parse(again.out).studies).toMatchObject([
      { status: 'already done' },
      { status: 'refused' },
      { status: 'already done' },
    ]);
  });

  it.runIf(whole)('prints one JSON document on stdout with --json, and the rest on stderr', async () => {
    const { out, err } = await cli(['run', 'tiny.yaml', '--out', 'json', '--json'], folder);
    expect(err).toContain('Results: json\n');
    expect(JSON.parse(out)).toMatchObject({
      document: 'run',
      format: 1,
      status: 'done',
      designs: 2,
      feasible: 2,
      front: 2,
      seconds: expect.any(Number),
      folder: 'json',
    });
    const refused = await cli(['run', 'typo.yaml', '--json'], folder);
    expect(JSON.parse(refused.out)).toMatchObject({ status: 'refused', designs: null, folder: null });
  });

  it.runIf(whole)('prints one line a study with --quiet', async () => {
    const { out, err } = await cli(['run', 'tiny.yaml', '--out', 'quiet', '--quiet'], folder);
    expect(out).toMatch(/^tiny\.yaml: 2 designs in [^\n]* quiet\n$/);
    expect(err).toBe('');
  });

  it.skipIf(process.platform === 'win32').each(['SIGINT', 'SIGTERM'] as const)(
    'stops within 2 s of %s, exit code 130, and says that what is done is kept',
    async (signal) => {
      // the contract's own limit, not a measure of speed: on a busy machine the quickest of five tries tells what is the run's own
      let took = Number.POSITIVE_INFINITY;
      let end: Ended | null = null;
      for (let tries = 0; tries < 5 && (end === null || end.err === '' || took >= 2000); tries++) {
        rmSync(join(folder, signal), { recursive: true, force: true });
        const { child, ended } = start(['run', 'long.yaml', '--out', signal], folder);
        await once(child.stdout!, 'data');
        await pause(300);
        const sent = Date.now();
        child.kill(signal);
        end = await ended;
        took = Math.min(took, Date.now() - sent);
      }
      const { code, err } = end!;
      expect(took).toBeLessThan(2000);
      expect(code).toBe(130);
      expect(err).toMatch(
        /^eddylift: long\.yaml: interrupted (after [\d,]+ designs?, which are kept|before any design was finished); the same command continues\n$/,
      );
      expect(tables(signal)).toEqual(['parts', 'run.json', 'study.yaml']);
      // on a busy machine nothing is finished yet
      const kept = Number((/after ([\d,]+)/.exec(err)?.[1] ?? '0').replaceAll(',', ''));
      expect(kept).toBe(designsKept(join(folder, signal)));
    },
  );
});
