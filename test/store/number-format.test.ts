import { expect, it } from 'vitest';
import { numberFormat } from '../../src/store/number-format.ts';

it.each([
  ['four digits of the largest number', [34.1416, 28.2222], '0.00'],
  ['two digits of the smallest', [34.1416, 0.0123456], '0.000'],
  ['no more decimals than any number has', [12, 1.5], '0.0'],
  ['none of whole numbers', [320, 440, 0], '0'],
  ['none of large ones', [123456.789, 99999.5], '0'],
  ['powers of ten where decimals would be many', [3.3e-6, 1.25e-7], '0.000E+00'],
  ['and where there would be many digits', [2.5e12], '0.000E+00'],
  ['negative numbers as their sizes', [-34.1416], '0.00'],
  ['nothing of empty cells and of infinity', [Number.NaN, Number.POSITIVE_INFINITY, 1.25], '0.00'],
  ['nothing where all are empty', [Number.NaN], '0'],
  ['zeros alone', [0, -0], '0'],
  ['powers of ten in the text of a number', [1.5e-7, 1], '0.000E+00'],
])('shows %s', (_, cells, format) => {
  expect(numberFormat(cells)).toBe(format);
});
