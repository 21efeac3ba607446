import { describe, expect, it } from 'vitest';
import { readFree } from '../../src/study/free-inputs.ts';
import { FOYER, slotsOf } from '../support/design.ts';

const read = (text: string) => readFree(text, slotsOf(FOYER));

function only(text: string) {
  const result = read(text);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return result.free[0]!;
}

describe('readFree', () => {
  it('starts a free input where the study has it', () => {
    expect(only('standoff')).toMatchObject({ path: 'standoff', start: 0.002, prior: null });
    expect(only('plate.metal.resistivity').start).toBe(2.82e-8);
  });

  it.each([
    ['standoff=2.5mm±0.3mm', 0.0025, 0.0003],
    ['standoff = 2.5 mm +- 300 um', 0.0025, 0.0003],
    ['standoff=2.5mm±10%', 0.0025, 0.00025],
    // an uncertainty of a temperature is a difference
    ['coil.at_temperature=80degC±5K', 353.15, 5],
    ['coil.at_temperature=80 degC ± 5 degC', 353.15, 5],
  ])('reads what is known beforehand: %s', (text, value, error) => {
    const { prior } = only(text);
    expect(prior!.value).toBeCloseTo(value, 9);
    expect(prior!.error).toBeCloseTo(error, 12);
  });

  it('reads bounds, and starts between them where the study lies outside', () => {
    expect(only('standoff=1mm..4mm')).toMatchObject({ minimum: 0.001, maximum: 0.004, start: 0.002 });
    expect(only('standoff=3mm..4mm').start).toBeCloseTo(0.0035, 12);
  });

  it.each([
    ['', 'unknown-input'],
    ['standof', 'unknown-input'],
    ['coil.turns', 'unknown-input'],
    ['drive.current', 'unknown-input'],
    ['standoff,standoff.thickness', 'twice'],
    ['plate.radius', 'no-start'],
    ['standoff=2mm', 'free-input'],
    ['standoff=2kg±1mm', 'wrong-dimension'],
    ['standoff=2mm±0mm', 'uncertainty'],
    ['standoff=4mm..1mm', 'bounds'],
    ['standoff=-1mm..1mm', 'out-of-range'],
  ])('refuses `%s`', (text, code) => {
    const result = read(text);
    expect('problems' in result && result.problems.map((problem) => problem.code)).toEqual([code]);
  });

  it('points at the one of several that is wrong', () => {
    const result = read('standoff,coil.wir,coil.extra_mass');
    expect('problems' in result && result.problems[0]).toMatchObject({ offset: 9, length: 8 });
  });
});
