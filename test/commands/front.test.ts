import { mkdirSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder } from '../support/cli.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { readWorkbook } from '../support/workbook.ts';

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Record = { readonly [column: string]: string };

function read(...path: string[]): Record[] {
  return parse(readFileSync(join(folder, ...path)), { columns: true });
}

function write(name: string, changes: readonly (readonly [string, string])[]): void {
  const text = changes.reduce((study, [old, fresh]) => study.replace(old, fresh), disturbedStudy(name));
  writeFileSync(join(folder, `${name}.yaml`), text);
}

const SMALL = ['step: 2}', 'step: 20}'] as const;

beforeAll(async () => {
  write('own', [SMALL]);
  write('other', [
    SMALL,
    ['limits: [coil_mass <= 3 kg]', 'limits: [coil_mass <= 3 kg, voltage <= 70 V, coil_turns >= 400]'],
    ['{maximise: height / current}, {minimise: coil_mass}', '{minimise: coil_mass}, {maximise: height}'],
  ]);
  for (const name of ['own', 'other']) {
    expect(
      (await cli(['run', `${name}.yaml`, '--out', name, '--quiet', '--threads', '1'], folder)).code,
    ).toBe(0);
  }
});

describe('eddylift front', () => {
  it('finds what a run with these limits and objectives finds, and leaves the result as it was', async () => {
    const before = readFileSync(join(folder, 'own', 'front.csv'));
    const asked = ['--limit', 'voltage <= 70 V', '--limit', 'coil_turns >= 400'];
    const objectives = ['--minimise', 'coil_mass', '--maximise', 'height'];
    const { code, out, err } = await cli(['front', 'own', ...asked, ...objectives, '--json'], folder);
    expect(code).toBe(0);
    const report = JSON.parse(out) as { file: string; feasible: number };
    const found = readFileSync(join(folder, report.file), 'utf8');
    expect(found).toBe(readFileSync(join(folder, 'other', 'front.csv'), 'utf8'));
    const run = JSON.parse(readFileSync(join(folder, 'other', 'run.json'), 'utf8'));
    expect(report).toMatchObject({ designs: run.counts.designs, feasible: run.counts.feasible });
    expect(readFileSync(join(folder, 'own', 'front.csv'))).toEqual(before);
    expect(err).toContain(`Front: ${report.file}\n`);
    const workbook = /For a spreadsheet: (\S+)\n/.exec(err)![1]!;
    expect(workbook).toBe(report.file.replace('.csv', '.xlsx'));
    const [, ...rows] = readWorkbook(readFileSync(join(folder, workbook))).get('Front')!;
    expect(rows.map(([design]) => String(design!.value))).toEqual(
      read(report.file).map(({ design }) => design),
    );
    const { url } = JSON.parse(readFileSync(join(folder, `${report.file}-metadata.json`), 'utf8'));
    expect(join('own', url)).toBe(report.file);
  });

  it('refuses a quantity on request that the result does not hold, and says what to do', async () => {
    const { code, err, out } = await cli(['front', 'own', '--limit', 'bounce_growth <= 0 1/s'], folder);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('computed on request and was not requested in this study');
    expect(err).toContain('names it under keep or derive');
  });

  it("finds the study's own front when nothing is asked for", async () => {
    const { out } = await cli(['front', 'own', '--threads', '1'], folder);
    const file = /Front: (\S+)\n/.exec(out)![1]!;
    expect(read(file)).toEqual(read('own', 'front.csv'));
  });

  it("leaves the study's own limits out with --no-limits", async () => {
    const { out } = await cli(['front', 'own', '--no-limits', '--maximise', 'coil_mass'], folder);
    expect(out).toContain('no limits; maximise coil_mass');
    const [heaviest] = read(/Front: (\S+)\n/.exec(out)![1]!);
    const all = read('own', 'designs.csv').map((row) => Number(row.coil_mass_kg));
    expect(Number(heaviest!.coil_mass_kg)).toBe(Math.max(...all));
    expect(Math.max(...all)).toBeGreaterThan(3);
  });

  it('says so when no design meets the limits', async () => {
    const { code, out } = await cli(['front', 'own', '--limit', 'coil_mass <= 1 g'], folder);
    expect(code).toBe(0);
    expect(out).toContain('0 feasible, 0 on the Pareto front.');
  });

  it('reports every problem of what is asked, each with a caret, and writes nothing', async () => {
    const before = readdirSync(join(folder, 'own'));
    const asked = [
      '--limit',
      'curent <= 12 A',
      '--limit',
      'supply_max_voltage <= 3 V',
      '--minimise',
      'height +',
    ];
    const { code, out, err } = await cli(['front', 'own', ...asked], folder);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('--limit:1:1: found `curent` is no quantity');
    expect(err).toContain('--limit:1:1: found `supply_max_voltage`, which the study does not give');
    expect(err).toMatch(/--minimise:1:\d+: found text that is no expression/);
    expect(readdirSync(join(folder, 'own'))).toEqual(before);
  });

  it.each([
    ['nowhere', 'nowhere is no result: there is no such folder'],
    ['.', '. is no result: it has no run.json'],
    ['own.yaml', /cannot read the result in \S+own\.yaml: part of the path is a file, not a folder/],
  ])('says in one line that %s is no result', async (place, why) => {
    const { code, err } = await cli(['front', place], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/^eddylift: [^\n]*\n$/);
    expect(err).toMatch(why);
  });

  it('says what it found also where it cannot write it', async () => {
    const asked = ['front', 'own', '--limit', 'height >= 12 mm'];
    const { out } = await cli(asked, folder);
    const file = join(folder, /Front: (\S+)\n/.exec(out)![1]!);
    rmSync(file);
    mkdirSync(file);
    const blocked = await cli(asked, folder);
    rmSync(file, { recursive: true });
    expect(blocked.code).toBe(2);
    expect(blocked.err).toMatch(/^eddylift: cannot write the result to [^\n]*\n$/);
    const told = (text: string) => text.slice(text.indexOf('feasible'), text.indexOf('\nFront: '));
    expect(told(`${blocked.out}\nFront: `)).toBe(told(out));
  });

  it('names a part that is damaged, instead of judging without it', async () => {
    const place = join(folder, 'other', 'parts');
    const [part] = readdirSync(place);
    truncateSync(join(place, part!), 100);
    const { code, err } = await cli(['front', 'other'], folder);
    expect(code).toBe(2);
    expect(err).toMatch(/^eddylift: a part of \S+ cannot be used: \S+\.arrow: its checksum does not fit\n$/);
  });
});
