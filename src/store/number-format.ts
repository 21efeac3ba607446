/** Digits that are shown at least, of a column's largest number and of its smallest. */
const OF_LARGEST = 4;
const OF_SMALLEST = 2;

/** Beyond, a column is shown in powers of ten. */
const MOST_DECIMALS = 6;
const LARGEST = 1e9;

/**
 * How a spreadsheet shows a column of numbers: with as many decimals throughout, enough for its largest and its smallest
 * number and no more than any of them has. In the language of number formats (ECMA-376 part 1, 18.8.31), where a point
 * stands for the decimal mark of whoever reads.
 */
export function numberFormat(cells: ArrayLike<number>): string {
  let largest = 0;
  let smallest = Number.POSITIVE_INFINITY;
  let written = 0;
  for (let i = 0; i < cells.length; i++) {
    const size = Math.abs(cells[i]!);
    if (!Number.isFinite(size) || size === 0) continue;
    largest = Math.max(largest, size);
    smallest = Math.min(smallest, size);
    written = Math.max(written, decimalsOf(size));
  }
  if (largest === 0) return '0';
  const wanted = Math.max(OF_LARGEST - 1 - exponentOf(largest), OF_SMALLEST - 1 - exponentOf(smallest), 0);
  const decimals = Math.min(wanted, written);
  if (decimals > MOST_DECIMALS || largest >= LARGEST) return '0.000E+00';
  return decimals === 0 ? '0' : `0.${'0'.repeat(decimals)}`;
}

function exponentOf(size: number): number {
  return Number(size.toExponential().split('e')[1]);
}

/** Of the shortest text that reads back as the number. */
function decimalsOf(size: number): number {
  const [digits = '', exponent] = size.toExponential().split('e');
  return Math.max(0, digits.replace('.', '').length - 1 - Number(exponent));
}
