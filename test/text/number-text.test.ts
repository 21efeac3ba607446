import { describe, expect, it } from 'vitest';
import { UNITS } from '../../src/model/units.ts';
import { countText, headText, measureText, numberText, typeset } from '../../src/text/number-text.ts';

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

  it.each([
    ['± 7.4e-10 Ω·m, standoff ± 0.16 mm', '± 7.4 × 10⁻¹⁰ Ω·m, standoff ± 0.16 mm'],
    ['-0.4255', '−0.4255'],
    ['-1.2e-5 to 3e7 W', '−1.2 × 10⁻⁵ to 3 × 10⁷ W'],
    ['aluminium-1050, 1e5x, lift-off', 'aluminium-1050, 1e5x, lift-off'],
  ])('sets the numbers in "%s"', (words, set) => {
    expect(typeset(words)).toBe(set);
  });

  it('counts one and more', () => {
    expect([countText(1, 'design'), countText(1488, 'design')]).toEqual(['1 design', '1,488 designs']);
  });
});
