import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNITS } from '../../src/model/units.ts';
import { measure, significant } from '../../src/text/significant.ts';

describe('significant', () => {
  it.each([
    [12.3, '12.3'],
    [19.94999, '19.95'],
    [3.3e-6, '3.3e-6'],
    [0.00123456, '0.001235'],
    [123456, '123500'],
    [9999.9, '10000'],
    [1234567, '1.235e6'],
    [-0.5, '-0.5'],
    [0, '0'],
    [-0, '0'],
    [Number.NaN, '-'],
    [Number.POSITIVE_INFINITY, 'unlimited'],
  ])('writes %d as %s', (value, text) => {
    expect(significant(value)).toBe(text);
  });

  it('stays within half a unit of the fourth digit of any number', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 }), (value) => {
        // Half of the fourth digit is at most 5e-4 of the value; doubles below 1e-300 lose digits themselves.
        expect(Math.abs(Number(significant(value)) - value)).toBeLessThanOrEqual(
          5.001e-4 * Math.abs(value) + 1e-303,
        );
      }),
    );
  });
});

describe('measure', () => {
  it('converts an SI value and names the unit, if there is one', () => {
    expect(measure(0.0123, UNITS.mm)).toBe('12.3 mm');
    expect(measure(373.15, UNITS.degC)).toBe('100 °C');
    expect(measure(0.25, UNITS.one)).toBe('0.25');
    expect(measure(Number.POSITIVE_INFINITY, UNITS.s)).toBe('unlimited');
    expect(measure(Number.NaN, UNITS.s)).toBe('-');
  });
});
