import { describe, expect, it } from 'vitest';
import { parseMeasure, toSI } from '../../src/expression/measure.ts';
import { UNITS, type UnitName } from '../../src/model/units.ts';

function si(text: string, unit: UnitName): number {
  const outcome = parseMeasure(text, UNITS[unit]);
  return outcome.ok ? toSI(outcome.value.value, outcome.value) : Number.NaN;
}

function flaw(text: string, unit: UnitName) {
  const outcome = parseMeasure(text, UNITS[unit]);
  return outcome.ok ? null : outcome.flaw;
}

describe('parseMeasure', () => {
  it('reads a number with any unit of the right dimension', () => {
    const rows: [string, UnitName, number][] = [
      ['8 mm', 'mm', 0.008],
      ['8mm', 'mm', 0.008],
      ['0.25 in', 'mm', 0.25 * 0.0254],
      ['120 g', 'kg', 0.12],
      ['20 kV/mm', 'kV_per_mm', 2e7],
      ['0.028264 ohm mm^2/m', 'ohm_m', 2.8264e-8],
      ['0.00403 1/K', 'per_K', 0.00403],
      ['0.00403/K', 'per_K', 0.00403],
      ['900 J/(kg K)', 'J_per_kg_K', 900],
      ['300 uF', 'uF', 3e-4],
      ['1e-3 m', 'mm', 0.001],
    ];
    for (const [text, unit, expected] of rows) expect(si(text, unit), text).toBe(expected);
  });

  it('reads a temperature in degC, degF or K, and a bare one in degC', () => {
    expect(si('22 degC', 'degC')).toBe(295.15);
    expect(si('22', 'degC')).toBe(295.15);
    expect(si('300 K', 'degC')).toBe(300);
    // 5/9 is not exact in binary: a few units in the last place.
    expect(si('72 degF', 'degC')).toBeCloseTo(295.3722222, 7);
  });

  it('says what is wrong, and where in the text', () => {
    expect(flaw('3 kg', 'mm')).toMatchObject({
      code: 'wrong-dimension',
      found: '`3 kg` is in kg',
      wanted: 'a length such as 8 mm',
      at: 2,
      length: 2,
    });
    expect(flaw('3 mmm', 'mm')?.wanted).toBe('a length such as 8 mm; did you mean `mm`?');
    expect(flaw('1,5 mm', 'mm')?.wanted).toBe('a decimal point');
    expect(flaw('thick', 'mm')?.code).toBe('not-a-measure');
    expect(flaw('1e999 mm', 'mm')?.code).toBe('overflow');
    expect(flaw('22 degC', 'mm')?.code).toBe('wrong-dimension');
    expect(flaw('3 mm + 2 mm', 'mm')?.code).toBe('unknown-unit');
  });
});
