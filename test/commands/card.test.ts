import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { card } from '../../src/commands/card.ts';
import { CAUTIONS_REMINDER } from '../../src/model/cautions/judge.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { loadStudy } from '../../src/session/load-study.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const FLOAT = join(PROJECT, 'studies/highest-float.yaml');
const PAN = join(PROJECT, 'studies/pan-heater.yaml');
const NEXT = join(PROJECT, 'studies/bench/next-design.yaml');
const FOYER = join(PROJECT, 'studies/metal-and-turns.yaml');

async function printed(place: string, design: number, columns = 80): Promise<string> {
  const io = testIo({ columns });
  expect(await card(place, { design, json: false, html: false }, io)).toBe(0);
  // the result was made by the built program, this one runs from its sources: another digest, and a remark
  expect(io.err().replace(/^eddylift: \S+ was made with [^\n]*\n/, '')).toBe('');
  return io.out();
}

async function machine(place: string, design: number) {
  const io = testIo();
  expect(await card(place, { design, json: true, html: false }, io)).toBe(0);
  const lines = io.out().trimEnd().split('\n');
  expect(lines).toHaveLength(1);
  return JSON.parse(lines[0]!);
}

const refused = (place: string, design: number) =>
  card(place, { design, json: false, html: false }, testIo({ cwd: scratch }));

/** The lines of a card's section, without its heading. */
function section(text: string, heading: RegExp): string[] {
  const part = text.split('\n\n').find((each) => heading.test(each.split('\n')[0]!));
  return part!.trimEnd().split('\n').slice(1);
}

describe('card', () => {
  it('prints the whole card of a floating rig', async () => {
    await expect(await printed(FLOAT, 59)).toMatchFileSnapshot('../golden/cards/highest-float-59.txt');
  });

  it.each([
    ['a floating rig', FLOAT, 59],
    ['a heating rig', PAN, 729],
    ['a rig with a plain supply', FOYER, 22],
    // 1.6 mm wire, 300 turns: the drive is too weak
    ['a resting rig', FLOAT, 0],
  ])('is readable at 80 columns for %s, and closes with who decides', async (_, place, design) => {
    const text = await printed(place, design);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    expect(text.replace(/\s+/g, ' ').trimEnd().endsWith(CAUTIONS_REMINDER)).toBe(true);
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it('goes from chatter up to the supply limit, and names the state of each current', async () => {
    const lines = section(await printed(FLOAT, 59), /supply limit/);
    const rows = lines.slice(lines.findIndex((line) => /^ +-+/.test(line)) + 1);
    expect(rows.length).toBeGreaterThanOrEqual(6);
    expect(rows[0]).toMatch(/rests/);
    expect(rows.at(-1)).toMatch(/floats/);
    // the socket’s 260 V at the variable transformer end it
    expect(rows.at(-1)).toMatch(/\b260\b/);
  });

  it('goes to half as much again as the drive where the supply names no limit', async () => {
    // design 22: 300 turns in 12 layers at 14.4 A
    const { curve, curve_end, quantities } = await machine(FOYER, 22);
    expect(curve_end).toBe('beyond the drive');
    expect(curve.at(-1).current_A).toBeCloseTo(1.5 * quantities.current_A, 9);
    expect(curve.map((row: { current_A: number }) => row.current_A)).toContain(quantities.current_A);
  });

  it('tells a heating rig how long its load takes, and nothing of heights', async () => {
    const text = await printed(PAN, 729);
    expect(text).toMatch(/load +warm after/);
    expect(section(text, /Raising/).join('\n')).not.toMatch(/height|floats/);
  });

  it('says of a load that never gets warm just that, and not that it has no limit', async () => {
    const weak = join(scratch, 'weak.yaml');
    mkdirSync(scratch, { recursive: true });
    writeFileSync(weak, readFileSync(PAN, 'utf8').replace(/drive.current: .*/, 'drive.current: [0.5 A]'));
    const text = await printed(weak, 0);
    expect(text).toMatch(/load +never gets to 95 °C/);
    expect(section(text, /Raising/).join('\n')).toMatch(/never/);
    expect(text).not.toMatch(/warm after no limit/);
  });

  it('gives machines every quantity with its unit, empty cells as null and times without end as INF', async () => {
    const { design, status, inputs, quantities, windings, limits, cautions, reminder } = await machine(
      FLOAT,
      59,
    );
    expect(design).toBe(59);
    expect(status).toBe('lifts');
    expect(inputs).toMatchObject({ coil_metal: 'aluminium', coil_wire_mm: 1.6, coil_turns: 600 });
    expect(quantities.first_limit).toBe('voltage');
    expect(quantities.capacitor_voltage_V).toBeNull();
    expect(quantities.fuse_blows_s).toBe('INF');
    expect(windings).toHaveLength(1);
    // 600 turns in 12 layers
    expect(windings[0]).toMatchObject({ turns: 600, wiresPerLayer: 50, layers: 12, wiresInLastLayer: 50 });
    expect(windings[0].coldResistance).toBeCloseTo(quantities.resistance_cold_ohm, 12);
    // all but its ten minutes: the hottest place is at the thermal class sooner
    expect(limits.filter(({ met }: { met: boolean }) => !met)).toMatchObject([
      { text: 'coil_on_time >= 10 min' },
    ]);
    expect(cautions.map(({ id }: { id: string }) => id)).toContain('thermal-class');
    expect(reminder).toBe(CAUTIONS_REMINDER);
  });

  it('says how a design turns out within its tolerances, and what makes the spread', async () => {
    const text = (await printed(NEXT, 17)).replace(/\s+/g, ' ');
    // the calibrated plate is not that of the catalogue any more
    expect(text).toContain('plate 12 mm of aluminium-1050, resistivity fitted standoff 2.839 mm');
    expect(text).toContain("allowed for plate's resistivity ± 7.4e-10 Ω·m, standoff ± 0.16 mm");
    expect(text).toContain('probability 255 of 256 such rigs (99.6 %) meet all limits');
    expect(text).toMatch(
      /height 18\.0 to 20\.8 mm in nine rigs of ten \(19\.4 as drawn\); two thirds of it from the drive's current/,
    );
    expect(text).toMatch(/Shares are of the variance; together the tolerances' slopes explain 99 %/);
    expect(await printed(FOYER, 22)).not.toContain('Within its tolerances');
  });

  it('gives machines the same spread that the tables have, with shares that add up to what is explained', async () => {
    const { spread } = await machine(NEXT, 17);
    const study = (await loadStudy(NEXT, false, testIo()))!;
    const { derived } = createEvaluator(study)({ first: 17, count: 1, values: Float64Array.of(460, 8) });
    const ofTable = (name: string) => derived[study.derive.findIndex((each) => each.name === name)]!;
    const height = spread.quantities.height_mm;
    expect(height.p05).toBe(ofTable('height_p05') * 1e3);
    expect(height.p95).toBe(ofTable('height_p95') * 1e3);
    expect(spread.probability_limits).toBe(ofTable('probability_limits'));
    const shares = Object.values<number>(height.variance_shares);
    expect(Object.keys(height.variance_shares)).toEqual(study.tolerance!.map(({ path }) => path));
    // 256 even points leave inputs correlated by a hundredth or two
    expect(Math.abs(shares.reduce((a, b) => a + b) - height.explained_by_slopes)).toBeLessThan(0.03);
    expect((await machine(FOYER, 22)).spread).toBeNull();
  });

  it.runIf(whole)('takes a result folder for the study in it', async () => {
    const folder = join(scratch, 'result');
    expect((await cli(['run', FOYER, '--out', folder, '--quiet'], scratch)).code).toBe(0);
    expect(await printed(folder, 22)).toBe(await printed(FOYER, 22));
  });

  it.runIf(whole)(
    'reads the designs of a search from its result, and says that a study alone does not hold them',
    async () => {
      const search = readFileSync(FOYER, 'utf8').replace(
        /^plan: .*$/m,
        'plan: {genetic: {population: 20, generations: 3, seed: 1}}',
      );
      writeFileSync(join(scratch, 'search.yaml'), search);
      const folder = join(scratch, 'search');
      expect((await cli(['run', 'search.yaml', '--out', folder, '--quiet'], scratch)).code).toBe(0);
      const [header, ...rows] = readFileSync(join(folder, 'designs.csv'), 'utf8').trimEnd().split(/\r?\n/);
      const turns = header!.split(',').indexOf('coil_turns');
      const last = rows.length - 1;
      expect((await machine(folder, last)).inputs.coil_turns).toBe(Number(rows[last]!.split(',')[turns]));
      await expect(refused(folder, rows.length)).rejects.toThrow(
        `there is no design ${rows.length}: there are`,
      );
      await expect(refused('search.yaml', 0)).rejects.toThrow(/name its result folder$/);
    },
  );

  it('says how many designs there are when there is no such one', async () => {
    await expect(refused(FOYER, 1488)).rejects.toThrow(
      'there is no design 1488: there are 1,488 designs, 0 to 1487',
    );
  });

  it('says what is no result and what is no study', async () => {
    mkdirSync(join(scratch, 'shoes'));
    writeFileSync(join(scratch, 'shoes', 'left.txt'), '');
    await expect(refused('shoes', 0)).rejects.toThrow(/^shoes is a folder but no result/);
    await expect(refused('gone.yaml', 0)).rejects.toThrow('cannot read gone.yaml: there is no such file');
  });
});
