import { strFromU8, unzipSync } from 'fflate';

export type WorkbookCell = number | string | boolean | null;

/** A cell as the file holds it: its value, and how it is shown. */
export interface StoredCell {
  readonly value: WorkbookCell;
  /** The type attribute of ECMA-376: s is a text, b a boolean; a number has none. */
  readonly type: string | undefined;
  readonly format: string | undefined;
}

/** Sheets by name, row by row; cells that the file leaves out are null. Holds as much of the format as our workbooks use. */
export function readWorkbook(bytes: Uint8Array): Map<string, (StoredCell | null)[][]> {
  const files = Object.fromEntries(
    Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content)]),
  );
  const texts = all(files['xl/sharedStrings.xml']!, /<t(?: [^>]*)?>([\s\S]*?)<\/t>/g).map(unescaped);
  const styles = files['xl/styles.xml']!;
  const formats = new Map(
    Array.from(styles.matchAll(/<numFmt numFmtId="(\d+)" formatCode="([^"]*)"/g), ([, id, code]) => [
      id!,
      unescaped(code!),
    ]),
  );
  const shown = all(styles.split('<cellXfs')[1]!, /<xf ([^>]*)>/g).map((xf) =>
    formats.get(/numFmtId="(\d+)"/.exec(xf)?.[1] ?? ''),
  );
  const names = all(files['xl/workbook.xml']!, /<sheet [^>]*name="([^"]*)"/g);
  return new Map(
    names.map((name, i) => [name, rowsOf(files[`xl/worksheets/sheet${i + 1}.xml`]!, texts, shown)]),
  );
}

function rowsOf(sheet: string, texts: readonly string[], shown: readonly (string | undefined)[]) {
  if (/<f[ >]/.test(sheet)) throw new Error('a formula');
  return all(sheet, /<row [^>]*>([\s\S]*?)<\/row>/g).map((row) => {
    const cells: (StoredCell | null)[] = [];
    for (const [, attributes = '', content = ''] of row.matchAll(/<c ([^>]*)>([\s\S]*?)<\/c>/g)) {
      const type = /\bt="(\w+)"/.exec(attributes)?.[1];
      const text = /<v>([\s\S]*?)<\/v>/.exec(content)?.[1];
      const style = /\bs="(\d+)"/.exec(attributes)?.[1];
      const at = columnOf(/\br="([A-Z]+)/.exec(attributes)![1]!);
      while (cells.length < at) cells.push(null);
      const format = style === undefined ? undefined : shown[Number(style)];
      cells.push(text === undefined ? null : { value: cellValue(type, text, texts), type, format });
    }
    return cells;
  });
}

function cellValue(type: string | undefined, text: string, texts: readonly string[]): WorkbookCell {
  if (type === undefined) return Number(text);
  if (type === 'b') return text === '1';
  if (type === 's' && /^\d+$/.test(text)) return texts[Number(text)]!;
  throw new Error(`a cell of type ${type} with ${text}`);
}

/** A is 0, AA is 26. */
function columnOf(letters: string): number {
  return [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

function all(text: string, pattern: RegExp): string[] {
  return Array.from(text.matchAll(pattern), ([, found]) => found!);
}

function unescaped(text: string): string {
  const characters: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
  return text.replace(/&(amp|lt|gt|quot|apos);/g, (_, name: string) => characters[name]!);
}
