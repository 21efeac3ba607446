import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Choice, VariedChoice, VariedNumber } from '../../src/model/study.ts';
import { valuesOf } from '../../src/study/complete.ts';
import { readStudy } from '../../src/study/read-study.ts';

afterEach(() => vi.restoreAllMocks());

const FOYER = readFileSync(new URL('../../studies/metal-and-turns.yaml', import.meta.url), 'utf8');

function vary(lines: readonly string[], plan = '{grid: {}}', rig: readonly [string, string] = ['', '']) {
  const text = FOYER.replace(/vary:\n(?: {2}.*\n)+/, `vary:\n${lines.map((line) => `  ${line}\n`).join('')}`)
    .replace('plan: {grid: {}}', `plan: ${plan}`)
    .replace(...rig);
  const result = readStudy(text);
  return 'problems' in result
    ? { codes: result.problems.map(({ code }) => code), vary: [] }
    : { codes: [], vary: result.study.vary };
}

const LONG = 200_000;

describe('a range of very many values', () => {
  it.each([
    [`drive.current: {from: 1 A, to: 20 A, count: ${LONG}}`],
    [`drive.current: {from: 1 A, to: 20 A, count: ${LONG}, spacing: log}`],
    [`coil.turns: {from: 1, to: ${LONG}, step: 1}`],
  ])('makes a text of few of them, and copies none for other threads: %s', (line) => {
    const text = vi.spyOn(Number.prototype, 'toPrecision');
    const read = vary([line]);
    const [one] = read.vary as readonly VariedNumber[];
    expect(read.codes).toEqual([]);
    expect(one!.levels).toHaveLength(LONG);
    expect(text.mock.calls.length).toBeLessThan(LONG / 100);
    expect(one!.levels.buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(one!.levels.buffer.byteLength).toBe(8 * LONG);
  });

  it('of temperatures is judged by its ends, not by all pairs with other values', () => {
    const lines = [
      `surroundings.temperature: {from: 5 degC, to: 35 degC, count: ${LONG}}`,
      `coil.at_temperature: {from: 20 degC, to: 90 degC, count: ${LONG}}`,
      `coil.metal.temperature_coefficient: {from: 0.0036, to: 0.004, count: ${LONG}}`,
    ];
    const metal = [
      'metal: aluminium\n',
      'metal: {resistivity: 2.83e-8, density: 2700, specific_heat: 900}\n',
    ] as const;
    const plan = '{sobol: {points: 100}}';
    expect(vary(lines, plan, metal).codes).toEqual([]);
    const cold = lines.map((line) =>
      line.replace('from: 20 degC, to: 90 degC', 'from: -270 degC, to: -240 degC'),
    );
    expect(vary(cold, plan, metal).codes).toEqual(['no-resistivity']);
    const warmest = cold.map((line) => line.replace('-240 degC', '0 degC'));
    expect(vary(warmest, plan, metal).codes).toEqual([]);
  });
});

describe('valuesOf', () => {
  it('looks at the settings of each of many choices once for each slot that they set', () => {
    let looks = 0;
    const count = 500;
    const levels = Array.from(
      { length: count },
      (_, i): Choice => ({
        label: `${i}`,
        get settings() {
          looks++;
          return [
            [3, i],
            [4, -i],
          ] as const;
        },
      }),
    );
    const shared = { name: 'metal', column: 'metal', meaning: '' };
    const metal: VariedChoice = { kind: 'choice', path: 'coil.metal', ...shared, levels };
    const template = { slots: new Float64Array(8), plateLayers: 1, windings: 0, texts: {} };
    const values = valuesOf(template, [metal]);
    expect([...values(4).slice(0, 3)]).toEqual([-0, -1, -2]);
    expect(looks).toBeLessThanOrEqual(3 * count);
  });
});
