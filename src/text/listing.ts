/** Widest line of running text: longer ones are hard to read. */
const WIDEST = 110;
/** Where the output is no terminal. */
const USUAL = 100;
/** The last column wraps at no fewer characters than this, however narrow the terminal. */
const NARROWEST_TEXT = 20;

/** Width in which to write to a stream. */
export function widthOf({ columns }: { readonly columns?: number }): number {
  return Math.min(WIDEST, columns ?? USUAL);
}

/**
 * Rows as aligned columns, two blanks apart, each line indented; the last column is wrapped to stay within `width`.
 * Rows are equally long.
 */
export function listing(rows: readonly (readonly string[])[], width: number, indent = 2): string {
  const widths = (rows[0] ?? []).map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  const before = widths.slice(0, -1).reduce((sum, w) => sum + w + 2, indent);
  return rows
    .map((row) => {
      const head = row
        .slice(0, -1)
        .map((cell, c) => `${cell.padEnd(widths[c]!)}  `)
        .join('');
      const [first = '', ...more] = wrap(row.at(-1)!, Math.max(NARROWEST_TEXT, width - before));
      const lines = [' '.repeat(indent) + head + first, ...more.map((line) => ' '.repeat(before) + line)];
      return lines.map((line) => `${line.trimEnd()}\n`).join('');
    })
    .join('');
}

/**
 * Text broken at blanks into lines of at most `width` characters; a longer word stands alone. Of several blanks in a
 * row only the last may break.
 */
export function wrap(text: string, width: number): string[] {
  return wrapWords(text.split(/ (?! )/), width);
}

/** Words joined by blanks into lines of at most `width` characters; a longer word stands alone. */
export function wrapWords(words: readonly string[], width: number): string[] {
  const lines: string[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
