/** How a table separates its columns and writes its numbers. */
export interface NumberFormat {
  readonly separator: ',' | ';' | '\t';
  /** Whether a comma is the decimal mark; only where it separates no columns. */
  readonly decimalComma: boolean;
}

const PLAIN = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const WITH_COMMA = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?$/;
/** Thousands in points before a decimal comma: `1.234,5`. */
const THOUSANDS = /^[+-]?\d{1,3}(?:\.\d{3})+,\d+$/;

/** Found by the first lines: a semicolon or a tab separates wherever it occurs outside of remarks. */
export function numberFormat(lines: readonly string[]): NumberFormat {
  const rows = lines.filter((line) => line.trim() !== '' && !line.trimStart().startsWith('#'));
  const has = (mark: string) => rows.filter((line) => line.includes(mark)).length > rows.length / 2;
  const separator = has(';') ? ';' : has('\t') ? '\t' : ',';
  const cells = rows.flatMap((line) =>
    line.split(separator).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1')),
  );
  const decimalComma =
    separator !== ',' &&
    cells.some((cell) => cell.includes(',') && (WITH_COMMA.test(cell) || THOUSANDS.test(cell)));
  return { separator, decimalComma };
}

/** NaN for what is no number in this format: where commas are decimal marks, a lone point is not read as one. */
export function readNumber(cell: string, { decimalComma }: NumberFormat): number {
  if (!decimalComma) return PLAIN.test(cell) ? Number(cell) : Number.NaN;
  if (WITH_COMMA.test(cell)) return Number(cell.replace(',', '.'));
  return THOUSANDS.test(cell) ? Number(cell.replaceAll('.', '').replace(',', '.')) : Number.NaN;
}
