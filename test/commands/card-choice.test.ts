import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { card } from '../../src/commands/card.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { testIo } from '../support/test-io.ts';

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const COIL = `study: One coil
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
`;
const SEVERAL = `${COIL.replace('turns: 440, ', '')}vary:
  coil.turns: [300, 400, 500]
  drive.current: [11 A, 12 A, 13 A]
limits: [height >= 12 mm]
objectives: [{maximise: height / current}, {minimise: coil_mass}]
`;

beforeAll(async () => {
  writeFileSync(join(scratch, 'coil.yaml'), COIL);
  writeFileSync(join(scratch, 'several.yaml'), SEVERAL);
  expect((await cli(['run', 'several.yaml', '--out', 'several'], scratch)).code).toBe(0);
});

async function machine(
  place: string,
  options: { design?: number | 'best' | 'knee' | 'lightest'; set?: string[] },
) {
  const io = testIo({ cwd: scratch });
  const { design = null, set = [] } = options;
  expect(await card(place, { design, set, json: true, html: false }, io)).toBe(0);
  return JSON.parse(io.out());
}

/** By the built program, whose threads read the parts. */
async function named(design: string) {
  const { code, out } = await cli(['card', 'several', '--design', design, '--json'], scratch);
  expect(code).toBe(0);
  return JSON.parse(out);
}

const refused = (place: string, set: string[] = [], design: null | 'best' = null) =>
  card(place, { design, set, json: false, html: false }, testIo({ cwd: scratch }));

describe('the card of a study that is one rig', () => {
  it('needs no number and has none', async () => {
    const io = testIo({ cwd: scratch, columns: 80 });
    expect(await card('coil.yaml', { design: null, json: false, html: false }, io)).toBe(0);
    expect(io.out().split('\n')[0]).toBe('Bench card of the rig: One coil');
  });

  it('shows the rig and what changed beside it', async () => {
    const before = await machine('coil.yaml', {});
    const set = ['coil.turns=300', 'plate.thickness=8 mm'];
    const after = await machine('coil.yaml', { set });
    expect(after.changed.inputs).toEqual([
      { path: 'coil.turns', from: '440', to: '300' },
      { path: 'plate.thickness', from: '12 mm', to: '8 mm' },
    ]);
    expect(after.changed.quantities_before).toEqual(before.quantities);
    // the same rig written down by hand
    writeFileSync(
      join(scratch, 'by-hand.yaml'),
      COIL.replace('turns: 440', 'turns: 300').replace('thickness: 12 mm', 'thickness: 8 mm'),
    );
    expect(after.quantities).toEqual((await machine('by-hand.yaml', {})).quantities);

    const io = testIo({ cwd: scratch, columns: 80 });
    await card('coil.yaml', { design: null, set, json: false, html: false }, io);
    expect(io.out()).toMatch(
      /What changed\n {2}coil\.turns +440 +300\n {2}plate\.thickness +12 mm +8 mm\n {2}height /,
    );
  });

  it('refuses what is no input or no value of it, each with a caret', async () => {
    const io = testIo({ cwd: scratch });
    const set = ['coil.truns=300', 'plate.thickness=8 kg', 'turns'];
    expect(await card('coil.yaml', { design: null, set, json: false, html: false }, io)).toBe(2);
    expect(io.out()).toBe('');
    expect(io.err().match(/^--set:1:\d+: found .+; wanted .+\n .*\n +\| +\^+$/gm)).toHaveLength(3);
    expect(io.err()).toContain('did you mean `coil.turns`?');
  });
});

describe('the card of a result', () => {
  it.runIf(whole)('finds the best, the knee and the lightest', async () => {
    const { err } = await cli(['run', 'several.yaml', '--out', 'again', '--json'], scratch);
    const best = Number(/: design (\d+) -/.exec(err)![1]);
    expect((await named('best')).design).toBe(best);
    const knee = Number(/best compromise(?: is|:) design (\d+)/i.exec(err)![1]);
    expect((await named('knee')).design).toBe(knee);
    const lightest = await named('lightest');
    const [head, ...rows] = readFileSync(join(scratch, 'several/designs.csv'), 'utf8').trim().split(/\r?\n/);
    const cell = (row: string, column: string) => row.split(',')[head!.split(',').indexOf(column)]!;
    const feasible = rows.filter((row) => cell(row, 'feasible') === 'true');
    expect(feasible.length).toBeGreaterThan(1);
    const least = Math.min(...feasible.map((row) => Number(cell(row, 'coil_mass_kg'))));
    expect(lightest.quantities.coil_mass_kg).toBe(least);
    expect(lightest.quantities.height_mm).toBeGreaterThanOrEqual(12);
  });

  it('takes the values of the design for what varies, then what is changed', async () => {
    const { quantities } = await machine('several', { design: 4 });
    const { changed, quantities: after } = await machine('several', { design: 4, set: ['coil.turns=400'] });
    expect(changed.quantities_before).toEqual(quantities);
    // 400 turns is what design 4 has: nothing changes
    expect(after).toEqual(quantities);
  });

  it('says how to name a design, and where names are known', async () => {
    await expect(refused('several')).rejects.toThrow(
      'several has 9 designs: choose one with --design, 0 to 8, or best, knee, lightest',
    );
    await expect(refused('several.yaml', [], 'best')).rejects.toThrow(
      'which design is best in the first objective is known after a run: eddylift run several.yaml, then name the result folder',
    );
  });
});
