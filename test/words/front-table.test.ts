import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Varied } from '../../src/model/study.ts';
import { UNITS } from '../../src/model/units.ts';
import { frontTable } from '../../src/words/front-table.ts';
import { type Row, workshopStudy } from '../support/batches.ts';
import { frontOf } from '../support/front.ts';

const study = workshopStudy();

function row(i: number): Row {
  const height = 0.0253 - 0.0015 * i;
  return {
    values: [i % 2, 440 - 20 * i, i % 2 ? 0.0011 : 0.000123],
    quantities: {
      height,
      coil_mass: 2.84 - 0.1 * i,
      liftoff_current: 8.7,
      current: 10 + 0.25 * i,
      voltage: 104.56 + i,
      power: 5e-7 * 10 ** (2 * i),
    },
    derived: [height / 10],
    objectives: [height, 2.84 - 0.1 * i],
  };
}

const front = frontOf(
  study,
  Array.from({ length: 12 }, (_, i) => row(i)),
);

describe('frontTable', () => {
  it('shows the best ten with units, points aligned, and says how many more there are', () => {
    expect(`\n${frontTable(study, front, { width: 120, count: 4 })}\n`).toMatchInlineSnapshot(`
      "
              coil        coil      plate          coil  lift-off
      design  metal      turns  thickness  height  mass   current  current  voltage  power
                                       mm      mm    kg         A        A        V      W
      ------  ---------  -----  ---------  ------  ----  --------  -------  -------  -----
           0  aluminium    440      0.123    25.3  2.84       8.7    10       104.6  5e-7
           1  copper       420      1.1      23.8  2.74       8.7    10.25    105.6  5e-5
           2  aluminium    400      0.123    22.3  2.64       8.7    10.5     106.6  0.005
           3  copper       380      1.1      20.8  2.54       8.7    10.75    107.6  0.5
      and 8 more in front.csv
      "
    `);
  });

  it('shows ten rows in 80 columns unless told otherwise', () => {
    const lines = frontTable(study, front).split('\n');
    expect(lines.filter((line) => /^ *\d/.test(line))).toHaveLength(10);
    expect(lines.at(-1)).toBe('and 2 more in front.csv');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('loses what comes next, then inputs, then objectives, as the terminal gets narrower', () => {
    const columns = (width: number) =>
      frontTable(study, front, { width })
        .split('\n')
        .find((line) => line.startsWith('---'))!
        .split('  ').length;
    const counts = Array.from({ length: 120 }, (_, i) => columns(120 - i));
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    expect(counts[0]).toBe(10);
    expect(counts.at(-1)).toBe(2);
    const narrow = frontTable(study, front, { width: 24 });
    expect(narrow).toContain('height');
    expect(narrow).toContain('mass');
    expect(narrow).not.toContain('turns');
  });

  it('fits any width that holds its narrowest form', () => {
    fc.assert(
      fc.property(fc.integer({ min: 16, max: 200 }), (width) => {
        const table = frontTable(study, front, { width }).split('\n').slice(0, -1);
        for (const line of table) expect(line.length).toBeLessThanOrEqual(width);
      }),
    );
  });

  it('leaves out what an objective or an equal column has shown already, and what is empty throughout', () => {
    const byAmps = workshopStudy({
      objectives: [study.objectives[0]!],
      vary: [
        { ...study.vary[1]!, name: 'drive_current', column: 'drive_current_A', unit: UNITS.A } as Varied,
      ],
    });
    const rows: Row[] = [10, 11].map((current) => ({
      values: [current],
      quantities: { height: 0.02, current, coil_mass: 2 },
      objectives: [0.02],
    }));
    const table = frontTable(byAmps, frontOf(byAmps, rows));
    expect(table.match(/height/g)).toHaveLength(1);
    // Once in `drive current`; the operating current repeats it.
    expect(table.match(/current/g)).toHaveLength(1);
    expect(table).not.toContain('voltage');
    expect(table).toContain('mass');
  });

  it('shows what `keep` leaves out of the files', () => {
    const kept = workshopStudy({ keep: ['height'] });
    expect(frontTable(kept, front)).toContain('lift-off');
  });

  it('keeps an operator with its operand when a label is wrapped', () => {
    const ratio = { ...study.objectives[0]!, text: 'height / current', program: study.derive[0]!.program };
    const table = frontTable(workshopStudy({ objectives: [ratio] }), front);
    expect(table).toMatch(/\/ current/);
  });

  it('cuts a metal name that would fill the screen', () => {
    const name = 'unobtainium '.repeat(10);
    const metal = { ...study.vary[0]!, levels: [{ label: name, settings: [] }] } as (typeof study.vary)[0];
    const long = workshopStudy({ vary: [metal] });
    const table = frontTable(long, frontOf(long, [{ values: [0], objectives: [1, 1] }]));
    expect(table).toContain('unobtainium unobtainium…');
    expect(table).not.toContain('unobtainium unobtainium u');
  });
});
