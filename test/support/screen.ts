/** The rows that a terminal of so many columns shows after these characters, blank ones left out. */
export function screenAfter(output: string, columns: number): string[] {
  const rows: string[][] = [[]];
  let row = 0;
  let column = 0;
  const cells = () => {
    while (rows.length <= row) rows.push([]);
    return rows[row]!;
  };
  // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences are what is looked for
  for (const [token] of output.matchAll(/\u001b\[[?\d;]*[A-Za-z]|[\s\S]/gu)) {
    // biome-ignore lint/suspicious/noControlCharactersInRegex: as above
    const [, numbers, letter] = /^\u001b\[([?\d;]*)([A-Za-z])$/.exec(token) ?? [];
    const count = Number(numbers || (letter === 'K' || letter === 'J' ? 0 : 1));
    if (token === '\r') column = 0;
    else if (token === '\n') row++;
    else if (letter === 'G') column = count - 1;
    else if (letter === 'A') row = Math.max(0, row - count);
    else if (letter === 'K') cells().length = count === 2 ? 0 : Math.min(cells().length, column);
    else if (letter === 'J') {
      cells().length = Math.min(cells().length, column);
      rows.length = row + 1;
    } else if (letter === undefined && token >= ' ') {
      if (column === columns) {
        row++;
        column = 0;
      }
      const line = cells();
      while (line.length < column) line.push(' ');
      line[column++] = token;
    }
  }
  return rows.map((line) => line.join('').trimEnd()).filter((line) => line !== '');
}
