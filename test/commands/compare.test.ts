import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type CompareOptions, compare } from '../../src/commands/compare.ts';
import { inputByPath } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { loadStudy } from '../../src/session/load-study.ts';
import { BUILT, measuredCsv } from '../bench/measured-points.ts';
import { scratchFolder } from '../support/cli.ts';
import { evaluateRig, FOYER } from '../support/design.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

/** Past 300 lines: prediction, measurement and comparison are of the same bench demo. */
const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const BENCH = join(PROJECT, 'studies/bench');
const PREDICTION = join(BENCH, 'prediction.yaml');
const MEASURED = join(BENCH, 'measured.csv');
const FREE = ['plate.metal.resistivity,standoff', 'coil.extra_mass'];
const PLAIN: CompareOptions = { design: null, free: [], out: null, json: false, html: false };

async function compared(place: string, measured: string, options: Partial<CompareOptions>, cwd = scratch) {
  const io = testIo({ cwd });
  const code = await compare(place, measured, { ...PLAIN, ...options }, io);
  return { code, out: io.out(), err: io.err() };
}

function fresh(): string {
  return mkdtempSync(join(scratch, 'c-'));
}

function written(text: string): string {
  const file = join(fresh(), 'points.csv');
  writeFileSync(file, text);
  return file;
}

describe('the bench demo', () => {
  it('holds what its script makes', () => {
    expect(readFileSync(MEASURED, 'utf8')).toBe(measuredCsv());
  });

  it('finds how the rig differs from the drawing, within the stated errors', async () => {
    const { code, out } = await compared(PREDICTION, MEASURED, { free: FREE, json: true });
    expect(code).toBe(0);
    const { calibration } = JSON.parse(out);
    expect(calibration.converged).toBe(true);
    for (const { path, value, standard_error } of calibration.inputs) {
      const input = inputByPath(path.replace('plate.', 'plate.layers.0.'))!;
      const truth = BUILT[input.path]! * input.unit.scale;
      // three standard errors: one in 370 draws is farther off, and the draw is a fixed one
      expect(Math.abs(value - truth)).toBeLessThan(3 * standard_error);
      expect(standard_error).toBeLessThan(0.1 * truth);
    }
  });

  it('keeps the fit that a comparison of today writes', async () => {
    const folder = fresh();
    for (const name of ['prediction.yaml', 'measured.csv'])
      copyFileSync(join(BENCH, name), join(folder, name));
    const options = { free: FREE, out: 'calibrated.yaml' };
    expect((await compared('prediction.yaml', 'measured.csv', options, folder)).code).toBe(0);
    const text = (at: string) => readFileSync(join(at, 'calibrated.yaml'), 'utf8');
    expect(text(folder)).toBe(text(BENCH));
  });
});

describe('the design after the bench', () => {
  it('meets its limits with 95 % confidence, and so does the rig that the bench had in truth', async () => {
    const study = (await loadStudy(join(BENCH, 'next-design.yaml'), false, testIo()))!;
    const evaluate = createEvaluator(study);
    const statistic = study.derive.findIndex(({ name }) => name === 'probability_limits');
    // designs 17 and 22 are the front
    for (const [turns, layers] of [
      [460, 8],
      [480, 10],
    ] as const) {
      const rows = evaluate({ first: 0, count: 1, values: Float64Array.of(turns, layers) });
      expect(rows.feasible[0]).toBe(1);
      expect(rows.derived[statistic]).toBeGreaterThanOrEqual(0.95);
      const { height, voltage } = evaluateRig({
        ...FOYER,
        ...BUILT,
        'coil.turns': turns,
        'coil.layers': layers,
      });
      expect(height).toBeGreaterThanOrEqual(0.017);
      expect(voltage).toBeLessThanOrEqual(120);
    }
    // as drawn, 440 turns in 8 layers meet the limits themselves, but not with confidence
    const drawn = evaluate({ first: 0, count: 1, values: Float64Array.of(440, 8) });
    expect(drawn.quantities[Q.height]).toBeGreaterThan(0.017);
    expect(drawn.derived[statistic]).toBeLessThan(0.95);
    expect(drawn.feasible[0]).toBe(0);
  });
});

describe('compare', () => {
  it('says in words, numbers and a chart how measured and model differ', async () => {
    const { code, out, err } = await compared(PREDICTION, MEASURED, { free: FREE });
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/height: the model gives 16\.43 mm, measured 14\.64 mm on average \(11 % less\)/);
    expect(out).toMatch(/coil mass: the model gives 2\.839 kg, measured 2\.903 kg \(2\.3 % more\)/);
    expect(out).toMatch(/^ {4}12 A +-1\.956 mm +-+o=+\|$/m);
    expect(out).toMatch(/standoff +2\.839 mm +± 0\.16 mm +before: 2 mm/);
    expect(out).not.toMatch(/NaN|undefined/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
  });

  it('takes the measured gap of the published benchmark for what it is', async () => {
    // TEAM Workshop Problem 28 (Karl, Fetzer, Kurz, Lehner, Rucker): stationary gap about 11.3 mm at 20 A amplitude
    const file = written('current_A,gap_mm,gap_mm_u\n14.142,11.3,0.3\n');
    const study = join(PROJECT, 'studies/two-coil-benchmark.yaml');
    const { out } = await compared(study, file, { json: true });
    const { bias, points } = JSON.parse(out).quantities.gap_mm;
    expect(points).toBe(1);
    // the README's 11.06 mm, to the digits it gives
    expect(bias).toBeCloseTo(11.3 - 11.06, 2);
  });

  it('makes a page of the comparison: words, fit, and a chart of each quantity that has points enough', async () => {
    const { code, out } = await compared(PREDICTION, MEASURED, { free: FREE, html: true });
    expect(code).toBe(0);
    expect(out).toMatch(/^<!DOCTYPE html>/);
    expect(out).not.toMatch(/<script|<link|<img| (?:style|on[a-z]+)="/);
    const words = out.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
    expect(words).toContain('height: the model gives 16.43 mm, measured 14.64 mm on average (11 % less)');
    expect(words).toContain('standoff 2.839 mm ± 0.16 mm 2 mm');
    expect(words).toContain('What is left is about what the stated uncertainties explain.');
    const alts = Array.from(out.matchAll(/<svg [^>]*aria-label="([^"]*)"/g), ([, alt]) => alt!);
    // one weighing makes no chart
    expect(alts).toEqual([
      expect.stringMatching(
        /^voltage over current \(A rms\): 8 measured points, the model, the fitted model;/,
      ),
      expect.stringMatching(/^height over current/),
    ]);
    // 8 bars on either side: 2 x 0.3 mm about each measured height
    expect(words).toMatch(/9\.5 3\.2 0\.3 5\.235 3\.4/);
    const plain = await compared(PREDICTION, MEASURED, { html: true });
    expect(plain.out).not.toContain('the fitted model');
    expect(plain.out).not.toContain('How far to trust the fit');
  });

  it('draws points that no one drive orders over the lines of their file, without a line through them', async () => {
    const file = written('current_A,voltage_V,inductance_mH\n12,,30\n,90,31\n13,,29\n');
    const { out } = await compared(PREDICTION, file, { html: true });
    expect(out).toContain('aria-label="inductance over line of the file: 3 measured points, the model;');
    expect(out).toContain('The points state no uncertainties.');
    expect(out).not.toMatch(/stroke-dasharray="6,3"/);
  });

  it('keeps markup in the names of files and studies as text', async () => {
    const bait = '<img src=x onerror=alert(1)><script>alert(2)<';
    const folder = fresh();
    const study = readFileSync(PREDICTION, 'utf8').replace(
      /^study: .*$/m,
      `study: ${JSON.stringify(`${bait}/script>`)}`,
    );
    writeFileSync(join(folder, 'study.yaml'), study);
    writeFileSync(join(folder, `${bait}.csv`), 'current_A,height_mm,note\n12,19,"<script>"\n13,24,\n');
    const { out } = await compared('study.yaml', `${bait}.csv`, { html: true }, folder);
    expect(out).toContain('&lt;img src=x onerror=alert(1)&gt;');
    expect(out).not.toMatch(/<img|<script/);
  });

  it('asks which design was built where that is open, and takes the one named', async () => {
    const foyer = join(PROJECT, 'studies/metal-and-turns.yaml');
    const file = written('current_A,coil_mass_kg\n12,2.9\n');
    await expect(compared(foyer, file, {})).rejects.toThrow(
      /1,488 designs \(coil\.metal varies\): choose with --design the one that was built/,
    );
    const { out } = await compared(foyer, file, { design: 22, json: true });
    expect(JSON.parse(out).design).toBe(22);
  });

  it('tells what is wrong with the points, and with the inputs to fit, by their place', async () => {
    const bad = await compared(PREDICTION, written('current_A,height_mm\n12,tall\n'), {});
    expect(bad.code).toBe(2);
    expect(bad.err).toMatch(/points\.csv:2:4: found `tall`/);
    const unknown = await compared(PREDICTION, MEASURED, { free: ['standof'] });
    expect(unknown.code).toBe(2);
    expect(unknown.err).toMatch(/--free:1:1: found the input `standof`.*did you mean `standoff`/);
    const file = written('current_A,height_mm,standoff_mm\n12,19,2\n');
    await expect(compared(PREDICTION, file, { free: ['standoff'] })).rejects.toThrow(/points give it/);
    await expect(compared(PREDICTION, MEASURED, { out: 'x.yaml' })).rejects.toThrow(/--free/);
  });

  it('never writes over a file that is no fit of an earlier comparison', async () => {
    const folder = fresh();
    copyFileSync(PREDICTION, join(folder, 'study.yaml'));
    const before = readFileSync(PREDICTION, 'utf8');
    const onto = (out: string) => compared('study.yaml', MEASURED, { free: ['standoff'], out }, folder);
    await expect(onto('study.yaml')).rejects.toThrow(/holds something else/);
    expect(readFileSync(join(folder, 'study.yaml'), 'utf8')).toBe(before);
    await expect(onto('fit.txt')).rejects.toThrow(/named \*\.yaml/);
    expect(existsSync(join(folder, 'fit.txt'))).toBe(false);
    expect((await onto('fit.yaml')).code).toBe(0);
    expect((await onto('fit.yaml')).code).toBe(0);
  });

  it('says which readings the model cannot answer', async () => {
    // without a radius a plate has no temperature
    const file = written('current_A,height_mm,plate_temperature_degC\n12,19,\n13,24,60\n');
    const { out } = await compared(PREDICTION, file, {});
    expect(out).toMatch(/No answer of the model\n {2}1 reading, in line 3/);
    const none = written('current_A,plate_temperature_degC\n13,60\n');
    await expect(compared(PREDICTION, none, {})).rejects.toThrow(/no answer to any/);
  });
});

describe('calibrated: FILE', () => {
  /** A study with this line in it, in a folder with this patch. */
  async function loaded(line: string, patch: string | null, place?: string) {
    const folder = fresh();
    mkdirSync(join(folder, 'studies'));
    const study = readFileSync(PREDICTION, 'utf8').replace(/^drive:/m, `${line}\ndrive:`);
    writeFileSync(join(folder, 'studies', 'study.yaml'), study);
    if (patch !== null) writeFileSync(join(folder, place ?? 'studies/fit.yaml'), patch);
    const io = testIo({ cwd: folder });
    return { study: await loadStudy('studies/study.yaml', false, io), err: io.err(), folder };
  }

  const standoff = inputByPath('standoff')!.slot;

  it('sets the inputs of the file in place of the rig’s, and makes them part of the study’s own text', async () => {
    const { study, err } = await loaded('calibrated: fit.yaml   # of May', 'standoff: 2.6 mm\n');
    expect(err).toBe('');
    expect(study!.rig.slots[standoff]).toBe(0.0026);
    expect(study!.text).toContain('calibrated: {standoff: "2.6 mm", file: "fit.yaml"}   # of May');
    const other = await loaded('calibrated: fit.yaml   # of May', 'standoff: 2.7 mm\n');
    expect(other.study!.hash).not.toBe(study!.hash);
    // as a result keeps it
    const again = await loaded('calibrated: {standoff: "2.6 mm", file: "fit.yaml"}   # of May', null);
    expect(again.study!.hash).toBe(study!.hash);
  });

  it('knows what was drawn, the standard errors and which files tell them', async () => {
    const patch = [
      'measured: points.csv',
      'plate.metal.resistivity: {value: 3.1e-8, error: 2 %}',
      'standoff: {value: 2.6 mm, error: 0.2 mm}',
      'coil.extra_mass: 0.2',
      'plate.radius: 1 m',
      '',
    ].join('\n');
    const { study } = await loaded('calibrated: fit.yaml', patch);
    const { inputs, ...files } = study!.fitted!;
    expect(files).toEqual({ file: 'fit.yaml', measured: 'points.csv' });
    expect(inputs.map(({ path, drawn, value, error }) => [path, drawn, value, error])).toEqual([
      ['plate.metal.resistivity', 2.82e-8, 3.1e-8, 0.02 * 3.1e-8],
      ['standoff', 0.002, 0.0026, 0.0002],
      ['coil.extra_mass', 0.15, 0.2, Number.NaN],
      ['plate.radius', Number.NaN, 1, Number.NaN],
    ]);
    expect(study!.rig.texts['plate.layers.0.metal']).toBe('aluminium-1050, resistivity fitted');
    expect(study!.rig.texts['coil.metal']).toBe('aluminium');
  });

  it.each([
    ['a file above the study', 'calibrated: ../fit.yaml', 'fit.yaml', /outside the folder of the study/],
    ['an absolute path', 'calibrated: /etc/hostname', null, /outside the folder of the study/],
    ['a file that is not there', 'calibrated: gone.yaml', null, /cannot be read \(there is no such file\)/],
    ['an input that varies', 'calibrated: {drive.current: 12 A}', null, /unknown key `drive\.current`/],
  ])('refuses %s', async (_, line, place, message) => {
    const { study, err } = await loaded(line, place === null ? null : 'standoff: 3 mm\n', place ?? undefined);
    expect(study).toBeNull();
    expect(err).toMatch(message);
    expect(err).toMatch(/study\.yaml:\d+:/);
  });

  it('refuses a link that leads out of the folder', async () => {
    const { folder } = await loaded('calibrated: fit.yaml', 'standoff: 3 mm\n', 'outside.yaml');
    symlinkSync(join(folder, 'outside.yaml'), join(folder, 'studies', 'fit.yaml'));
    const io = testIo({ cwd: folder });
    expect(await loadStudy('studies/study.yaml', false, io)).toBeNull();
    expect(io.err()).toMatch(/outside the folder/);
  });

  it.each([
    ['an unknown input', 'standof: 2 mm\n', /fit\.yaml:1:1: found the unknown key `standof`/],
    ['a wrong unit', 'standoff: 2 kg\n', /fit\.yaml:1:\d+: found `2 kg` is in kg/],
    ['an alias', 'standoff: &a 2 mm\ncoil.wire: *a\n', /alias/],
    ['no mapping', '- 1\n', /no mapping/],
    ['a value out of range', 'standoff: -2 mm\n', /above 0 mm/],
    ['a wrong error', 'standoff: {value: 2 mm, error: 0 mm}\n', /fit\.yaml:1:\d+: .*standard error above 0/],
    ['an error alone', 'standoff: {error: 0.1 mm}\n', /fit\.yaml:1:\d+: found no `value`/],
  ])('tells %s by its place in the file', async (_, patch, message) => {
    const { study, err } = await loaded('calibrated: fit.yaml', patch);
    expect(study).toBeNull();
    expect(err).toMatch(message);
  });

  it('refuses an input that is fitted and varied', async () => {
    const folder = fresh();
    const text = readFileSync(PREDICTION, 'utf8')
      .replace(/^drive:/m, 'calibrated: {standoff: 3 mm, standoff.thickness: 3 mm}\ndrive:')
      .replace(/^vary:/m, 'vary:\n  standoff: [2 mm, 3 mm]');
    writeFileSync(join(folder, 'study.yaml'), text);
    const io = testIo({ cwd: folder });
    expect(await loadStudy('study.yaml', false, io)).toBeNull();
    expect(io.err()).toMatch(/`standoff`, which `standoff` in vary changes/);
    expect(io.err()).toMatch(/`standoff.thickness`, which another path gives, too/);
  });
});
