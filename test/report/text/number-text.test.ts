import { describe, expect, it } from 'vitest';
import { UNITS } from '../../../src/model/units.ts';
import { countText, headText, measureText, numberText } from '../../../src/report/text/number-text.ts';

describe('numberText', () => {
  it.each([
    [0, '0'],
    [12.34567, '12.35'],
    [-0.5, '−0.5'],
    [0.001, '0.001'],
    [3.3e-6, '3.3 × 10⁻⁶'],
    [-1234567, '−1.235 × 10⁶'],
    [999999, '1 × 10⁶'],
    [999949, '999900'],
    [Number.NaN, '–'],
    [Number.POSITIVE_INFINITY, 'unlimited'],
    [Number.NEGATIVE_INFINITY, '−∞'],
  ])('sets %d as %s', (value, text) => {
    expect(numberText(value)).toBe(text);
  });

  it('sets a unit beside a number, but not beside an empty cell', () => {
    expect(measureText(0.0123, UNITS.mm)).toBe('12.3 mm');
    expect(measureText(300.15, UNITS.degC)).toBe('27 °C');
    expect(measureText(Number.NaN, UNITS.mm)).toBe('–');
    expect(headText('turns', UNITS.one)).toBe('turns');
    expect(headText('gap', UNITS.mm)).toBe('gap (mm)');
  });

  it('counts one and more', () => {
    expect([countText(1, 'design'), countText(1488, 'design')]).toEqual(['1 design', '1,488 designs']);
  });
});
