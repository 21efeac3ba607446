import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Study } from '../../src/model/study.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createRejudge } from '../../src/rig/judge.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { PROJECT } from '../support/source-files.ts';

const FOYER = readFileSync(join(PROJECT, 'test/fixtures/foyer-table.yaml'), 'utf8');

function withTolerance(entries: string, limits = '[]', objective = '{maximise: height}') {
  return FOYER.replace(/^limits:[\s\S]*?(?=^\w)/m, '').replace(
    /^objectives:[\s\S]*?(?=^\w|$(?![\s\S]))/m,
    `tolerance: {${entries}}\nlimits: ${limits}\nobjectives: [${objective}]\n`,
  );
}

function study(...args: Parameters<typeof withTolerance>): Study {
  const read = readStudy(withTolerance(...args));
  if ('problems' in read) throw new Error(JSON.stringify(read.problems));
  return read.study;
}

function codes(...args: Parameters<typeof withTolerance>): string[] {
  const read = readStudy(withTolerance(...args));
  return 'problems' in read ? read.problems.map(({ code }) => code) : [];
}

describe('tolerance', () => {
  it('reads sizes in units, shares and spreads', () => {
    const { tolerance } = study(
      'standoff: 0.3 mm, plate.metal.resistivity: 5 %, coil.extra_mass: {size: 20 g, spread: uniform}',
    );
    expect(
      tolerance!.map(({ path, size, relative, distribution }) => [path, size, relative, distribution]),
    ).toEqual([
      ['standoff', 0.0003, false, 'normal'],
      ['plate.metal.resistivity', 0.05, true, 'normal'],
      ['coil.extra_mass', 0.02, false, 'uniform'],
    ]);
  });

  it('adds quantiles of what limits and objectives name, and two probabilities', () => {
    const { derive } = study('standoff: 0.3 mm', '[probability(limits) >= 0.95, p95(voltage) <= 300 V]');
    const columns = derive.filter(({ statistic }) => statistic).map(({ column }) => column);
    for (const column of ['voltage_V_p05', 'voltage_V_p95', 'height_mm_p05', 'height_mm_p95']) {
      expect(columns).toContain(column);
    }
    expect(columns.slice(-2)).toEqual(['probability_lifts', 'probability_limits']);
    // nothing names it
    expect(columns).not.toContain('stiffness_N_per_mm_p05');
  });

  it.each([
    ['standof: 1 mm', 'unknown-key'],
    ['standoff: 1 kg', 'wrong-dimension'],
    ['standoff: 0 mm', 'tolerance'],
    ['standoff: 150 %', 'tolerance'],
    ['plate.radius: 1 mm', 'absent-input'],
    ['standoff: 1 mm, standoff.thickness: 1 mm', 'same-input'],
  ])('refuses {%s}', (entries, code) => {
    expect(codes(entries)).toEqual([code]);
  });

  it.each([
    '[p95(height + gap) >= 1 mm]',
    "['p95(height, gap) >= 1 mm']",
    '[probability(height) >= 0.5]',
    '[p95(heigth) >= 1 mm]',
    '[p95(height) >= 1 kg]',
  ])('refuses the limit %s', (limits) => {
    expect(codes('standoff: 0.3 mm', limits)).toHaveLength(1);
  });

  it('knows no statistics in a study without tolerances', () => {
    const text = FOYER.replace(/^limits:[\s\S]*?(?=^\w)/m, 'limits: [p95(height) >= 1 mm]\n');
    const read = readStudy(text);
    expect('problems' in read && read.problems.map(({ code }) => code)).toEqual(['statistic']);
  });

  it('brings the median between its quantiles, and keeps them when rows are judged anew', () => {
    const task = study(
      'standoff: 0.3 mm, plate.metal.resistivity: 5 %',
      '[height >= 12 mm, probability(limits) >= 0.95]',
    );
    const values = Float64Array.from(task.vary, (varied) =>
      varied.kind === 'number' ? varied.levels.at(-1)! : 0,
    );
    const rows = createEvaluator(task)({ first: 0, count: 1, values });
    const of = (name: string) => rows.derived[task.derive.findIndex((one) => one.name === name)]!;
    const height = task.derive.find(({ name }) => name === 'height_p05')!.statistic!;
    const own = height.kind === 'quantile' ? rows.quantities[height.quantity]! : Number.NaN;
    expect(of('height_p05')).toBeLessThan(own);
    expect(of('height_p95')).toBeGreaterThan(own);
    expect(of('probability_limits')).toBeGreaterThanOrEqual(0);
    expect(createRejudge(task)(rows).derived).toEqual(rows.derived);
  });
});
