import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cli, type Ended, scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';

/** The plan is put in by each test. */
const STUDY = `study: Which coil for the travelling table?
rig:
  floats: coil
  coil: {insulation: grade 2, layers: 6, extra_mass: 120 g}
  plate: {metal: aluminium-6082, thickness: 10 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 10 A}
vary:
  coil.metal: [aluminium, copper]
  coil.wire: [1.4 mm, 1.8 mm, 2.5 mm]
  coil.turns: {from: 200, to: 600}
  coil.inner_radius: {from: 30 mm, to: 75 mm, spacing: log}
limits: [height >= 5 mm, current_density <= 7 A/mm^2]
objectives: [{maximise: height}, {minimise: coil_mass}]
plan: `;

const PLANS = {
  sobol: '{sobol: {points: 300, seed: 5}}',
  nelder_mead: '{nelder_mead: {starts: 2, seed: 5, levels: 2, evaluations: 120}}',
  genetic: '{genetic: {population: 30, generations: 12, seed: 5}}',
};
const FILES = ['designs.csv', 'designs.parquet', 'front.csv', 'descents.csv'];

type Row = Readonly<Record<string, string>>;

function table(path: string): Row[] {
  return parse(readFileSync(path, 'utf8'), { columns: true }) as Row[];
}

describe.each(Object.entries(PLANS).filter(([kind]) => whole || kind !== 'sobol'))(
  'a search: %s',
  (kind, plan) => {
    const folder = scratchFolder();
    let ended: Ended;
    beforeAll(async () => {
      writeFileSync(join(folder, 'study.yaml'), `${STUDY}${plan}\n`);
      ended = await cli(['run', 'study.yaml', '--out', 'one', '--threads', '1'], folder);
    });
    afterAll(() => rmSync(folder, { recursive: true }));

    it.runIf(whole)('writes the same bytes with two threads as with one', async () => {
      expect(ended.err).toBe('');
      expect(ended.code).toBe(0);
      const two = await cli(['run', 'study.yaml', '--out', 'two', '--threads', '2'], folder);
      expect(two.code).toBe(0);
      for (const file of FILES.filter((name) => readdirSync(join(folder, 'one')).includes(name))) {
        expect(readFileSync(join(folder, 'two', file))).toEqual(readFileSync(join(folder, 'one', file)));
      }
    });

    it('evaluates designs within what varies, whole turns included, and finds a feasible front', () => {
      const rows = table(join(folder, 'one/designs.csv'));
      for (const row of rows) {
        expect(['aluminium', 'copper']).toContain(row.coil_metal);
        expect(['1.4', '1.8', '2.5']).toContain(row.coil_wire_mm);
        expect(row.coil_turns).toMatch(/^[2-5]\d\d$|^600$/);
        expect(Number(row.coil_inner_radius_mm)).toBeGreaterThanOrEqual(30);
        expect(Number(row.coil_inner_radius_mm)).toBeLessThanOrEqual(75);
      }
      const front = rows.filter((row) => row.on_front === 'true');
      expect(front.length).toBeGreaterThan(3);
      for (const row of front) expect(row.feasible).toBe('true');
      const designs = rows.map((row) =>
        [row.coil_metal, row.coil_wire_mm, row.coil_turns, row.coil_inner_radius_mm].join(),
      );
      const onFront = designs.filter((_, i) => rows[i]!.on_front === 'true');
      expect(new Set(onFront).size).toBe(onFront.length);
    });

    it('records seed, front and how it went', () => {
      const record = JSON.parse(readFileSync(join(folder, 'one/run.json'), 'utf8'));
      const rows = table(join(folder, 'one/designs.csv'));
      expect(record.seed).toBe(5);
      expect(record.counts.designs).toBe(rows.length);
      expect(record.front.hypervolume).toBeGreaterThan(0.3);
      expect(record.front.hypervolume).toBeLessThan(1);
      const front = rows.filter((row) => row.on_front === 'true');
      const heights = front.map((row) => Number(row.height_mm));
      expect(record.front.best[0]).toBeCloseTo(Math.max(...heights), 9);
      expect(front.map((row) => Number(row.design))).toContain(record.front.knee);
      expect(record.search?.kind).toBe(kind === 'sobol' ? undefined : kind);
    });

    it.runIf(kind === 'nelder_mead')(
      'gives every row its start and step, and every start a row of its own',
      () => {
        const rows = table(join(folder, 'one/designs.csv'));
        const starts = table(join(folder, 'one/descents.csv'));
        // each objective alone, then the first for two levels of the second; two starts each
        expect(starts.map((row) => row.start)).toEqual(['0', '1', '2', '3', '4', '5', '6', '7']);
        expect(starts.map((row) => row.objective_2_bound_kg !== '')).toEqual(starts.map((_, i) => i >= 4));
        for (const start of starts) {
          const own = rows.filter((row) => row.start === start.start);
          expect(own).toHaveLength(Number(start.evaluations));
          expect(own.map((row) => Number(row.step))).toEqual(own.map((_, step) => step));
          expect(own[0]!.design).toBe(start.from_design);
          const best = rows[Number(start.to_design)]!;
          expect(best.start).toBe(start.start);
          expect(best.height_mm).toBe(start.objective_1_to_mm);
          expect(best.coil_mass_kg).toBe(start.objective_2_to_kg);
          if (start.objective_2_bound_kg) {
            expect(Number(best.coil_mass_kg)).toBeLessThanOrEqual(Number(start.objective_2_bound_kg));
          }
        }
        expect(rows.filter((row) => row.start === '')).toHaveLength(2 * 16);
      },
    );

    it('has the front that `eddylift front` finds in it, to the byte', async () => {
      const { code, out } = await cli(['front', 'one', '--threads', '2'], folder);
      expect(code).toBe(0);
      const file = /Front: (\S+)\n/.exec(out)![1]!;
      expect(readFileSync(join(folder, file), 'utf8')).toBe(
        readFileSync(join(folder, 'one/front.csv'), 'utf8'),
      );
    });

    it('tells how good its answer is', () => {
      const telling = {
        sobol:
          /\d+ on the Pareto front.* Front: dominates [\d.]+ % of the box.* The best compromise \(design \d+\)/,
        nelder_mead:
          /of 8 starts .* floats highest: [\d.]+ mm, found by [12] of 2 starts.* The best compromise/,
        genetic: /Genetic search: .* Front: dominates .* The best compromise \(design \d+\): .*limit/,
      }[kind];
      expect(ended.out.replaceAll(/\s+/g, ' ')).toMatch(telling!);
    });
  },
);
