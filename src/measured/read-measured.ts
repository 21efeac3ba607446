import { CsvError, parse } from 'csv-parse/sync';
import type { Problem } from '../errors.ts';
import { type InputSpec, SLOT } from '../model/inputs.ts';
import type { MeasuredDrive, MeasuredPoint, Reading } from '../model/measured.ts';
import { Q } from '../model/quantities.ts';
import { fromUnit, toUnit } from '../model/units.ts';
import { decodeTable } from './decode-table.ts';
import {
  type HeaderCell,
  isColumnName,
  looksLikeColumn,
  type MeasuredColumn,
  readHeader,
} from './measured-columns.ts';
import { type NumberFormat, numberFormat, readNumber } from './number-format.ts';

/** Measured points are typed in by hand or logged for an hour; more than this is another kind of file. */
const MAX_BYTES = 1_000_000;
const MAX_ROWS = 2000;
const MAX_COLUMNS = 100;
/** More problems than this help nobody. */
const MAX_PROBLEMS = 50;

type Read =
  | { readonly points: readonly MeasuredPoint[]; readonly unused: readonly string[] }
  | { readonly problems: readonly Problem[] };

function refuse(code: string, offset: number, length: number, found: string, wanted: string): Read {
  return { problems: [{ code, offset, length, found, wanted }] };
}

/**
 * A table of measured points (CSV, RFC 4180, also with semicolons or tabs and decimal commas; `#` starts a line of remarks): columns
 * are named as in the tables of results, with that unit or another of its kind, or as `renamed` gives it; `<column>_u` holds standard uncertainties; a column of an input sets it for the row. Every
 * problem with its place, or the points in the order of the file.
 */
export function readMeasured(
  source: Uint8Array,
  hint: (name: string, known: readonly string[]) => string,
  renamed: ReadonlyMap<string, string> = new Map(),
): Read {
  if (source.length > MAX_BYTES) {
    return refuse('too-large', 0, 1, `more than ${MAX_BYTES} bytes`, 'a table of measured points');
  }
  const { text: lenient, odd } = decodeTable(source);
  const zero = lenient.indexOf('\0');
  if (zero >= 0) return refuse('binary', zero, 1, 'a NUL byte: a binary file', 'CSV: text in UTF-8');
  if (odd !== null) return refuse('not-utf8', odd, 1, 'bytes that are no text', 'CSV: text in UTF-8');
  const format = numberFormat(lenient.split(/\r?\n/, MOST_LOOKED_AT));
  const split = records(lenient, format.separator);
  if ('problems' in split) return split;
  const broken = split.records.flatMap(({ cells }) => cells).find(({ text }) => /[\r\n]/.test(text));
  if (broken) {
    // a quote that does not close reads on to the next one, and rows would be lost in between without a word
    const found = 'a line break within a value: a quote that does not close?';
    return refuse('line-break', broken.offset, 1, found, 'each value on one line');
  }
  const [header, ...rows] = table(split.records, renamed);
  if (header === undefined || rows.length === 0) {
    return refuse('empty', 0, 1, 'no measured points', 'a header such as current_A,height_mm, then rows');
  }
  if (header.cells.length > MAX_COLUMNS || rows.length > MAX_ROWS) {
    const found = `${rows.length} rows of ${header.cells.length} columns`;
    return refuse('too-large', 0, 1, found, `at most ${MAX_ROWS} rows and ${MAX_COLUMNS} columns`);
  }
  const mistaken = [...renamed.keys()].find((name) => !header.cells.some(({ text }) => text === name));
  if (mistaken !== undefined) {
    const wanted = `one of its columns: ${header.cells.map(({ text }) => text).join(', ')}`;
    return refuse('no-such-column', header.cells[0]!.offset, 1, `no column \`${mistaken}\``, wanted);
  }
  const meaning = readHeader(header.cells, hint, renamed);
  if ('problems' in meaning) return meaning;

  const problems: Problem[] = [];
  const points = rows.flatMap((row) => {
    const read = readRow(row, meaning.names, meaning.columns, format);
    if ('problems' in read) problems.push(...read.problems);
    return 'point' in read ? [read.point] : [];
  });
  if (problems.length > 0) return { problems: problems.slice(0, MAX_PROBLEMS) };
  return { points, unused: meaning.unused };
}

/** Lines by which separators and decimal marks are found. */
const MOST_LOOKED_AT = 200;
/** Titles and remarks above a header. */
const MOST_ABOVE = 20;

/**
 * The header, then the rows: without what a spreadsheet leaves around a table, that is empty rows, empty columns on the
 * right, and lines above the first one that names a column.
 */
function table(found: readonly TextRecord[], renamed: ReadonlyMap<string, string>): TextRecord[] {
  const filled = found.filter(({ cells }) => cells.some(({ text }) => text !== ''));
  const named = filled
    .slice(0, MOST_ABOVE)
    .findIndex(({ cells }) =>
      cells.some(({ text }) => renamed.has(text) || isColumnName(text) || looksLikeColumn(text)),
    );
  const [header, ...rows] = filled.slice(Math.max(0, named));
  if (header === undefined) return [];
  const width = header.cells.findLastIndex(({ text }) => text !== '') + 1;
  // a row that is longer or shorter than the header has lost its columns, whatever its last cells are
  const cut = ({ line, cells }: TextRecord): TextRecord => ({
    line,
    cells:
      cells.length === header.cells.length && cells.slice(width).every(({ text }) => text === '')
        ? cells.slice(0, width)
        : cells,
  });
  return [header, ...rows].map(cut);
}

interface TextRecord {
  readonly line: number;
  readonly cells: readonly HeaderCell[];
}

/** Records with where their cells stand. */
function records(
  text: string,
  delimiter: string,
): { readonly records: readonly TextRecord[] } | { readonly problems: Problem[] } {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  const startOf = (line: number) => starts[Math.min(line, starts.length) - 1]!;
  try {
    const parsed = parse(text, {
      bom: true,
      delimiter,
      comment: '#',
      comment_no_infix: true,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return {
      records: parsed.map(({ record, info }) => {
        let at = startOf(info.lines);
        const cells = record.map((cell) => {
          const found = cell === '' ? -1 : text.indexOf(cell, at);
          const offset = found < 0 ? at : found;
          at = found < 0 ? at : found + cell.length;
          return { text: cell, offset, length: Math.max(1, cell.length) };
        });
        return { line: info.lines, cells };
      }),
    };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const offset = startOf(Number(error.lines ?? 1));
    const found = 'a quote that does not close, or stands inside a value';
    return { problems: [{ code: 'not-csv', offset, length: 1, found, wanted: 'CSV' }] };
  }
}

type ReadRow = { readonly point: MeasuredPoint } | { readonly problems: readonly Problem[] };

function readRow(
  row: TextRecord,
  names: readonly string[],
  columns: readonly MeasuredColumn[],
  format: NumberFormat,
): ReadRow {
  const problems: Problem[] = [];
  const at = row.cells[0]!;
  if (row.cells.length !== columns.length) {
    const found = `${row.cells.length} values in line ${row.line}`;
    const wanted = `${columns.length}, as the header has; a decimal comma needs semicolons between columns`;
    return { problems: [{ ...at, code: 'columns', found, wanted }] };
  }
  /** SI; NaN for an empty cell. */
  const numbers = new Map<string, number>();
  row.cells.forEach((cell, c) => {
    const column = columns[c]!;
    if (column.kind === 'note' || cell.text === '') return;
    const read = readCell(cell.text, column, format);
    if (typeof read === 'number') numbers.set(names[c]!, read);
    else problems.push({ ...read, offset: cell.offset, length: cell.length });
  });
  if (problems.length > 0) return { problems };

  const { drive, by } = driveOf(numbers);
  const readings = columns.flatMap((column, c): Reading[] => {
    const name = names[c]!;
    const value = numbers.get(name);
    if (column.kind !== 'reading' || value === undefined || name === by) return [];
    return [{ quantity: column.quantity.index, value, uncertainty: numbers.get(`${name}_u`) ?? Number.NaN }];
  });
  if (readings.length === 0) {
    const found = `nothing measured in line ${row.line}`;
    const wanted = 'a value besides the drive, such as a height';
    return { problems: [{ ...at, code: 'nothing-measured', found, wanted }] };
  }
  const settings = columns.flatMap((column, c) => {
    const value = column.kind === 'input' ? numbers.get(names[c]!) : undefined;
    const isDrive = column.kind === 'input' && DRIVES.includes(column.input.slot);
    return column.kind === 'input' && value !== undefined && !isDrive
      ? [[column.input.slot, value] as const]
      : [];
  });
  const driveUncertainty = by === null ? 0 : (numbers.get(`${by}_u`) ?? 0);
  return { point: { line: row.line, drive, driveUncertainty, settings, readings } };
}

const DRIVES: readonly number[] = [SLOT.driveCurrent, SLOT.driveVoltage];

/** What a row was driven with, likeliest first; the column that gives it is no reading. */
const DRIVEN_BY = [
  ['drive_current_A', 'current'],
  ['drive_voltage_V', 'outlet voltage'],
  ['current_A', 'current'],
  ['supply_voltage_V', 'outlet voltage'],
  ['voltage_V', 'terminal voltage'],
] as const;

function driveOf(numbers: ReadonlyMap<string, number>): { drive: MeasuredDrive; by: string | null } {
  for (const [column, kind] of DRIVEN_BY) {
    const value = numbers.get(column);
    if (value !== undefined) return { drive: { kind, value }, by: column };
  }
  return { drive: { kind: 'own' }, by: null };
}

type Flaw = Pick<Problem, 'code' | 'found' | 'wanted'>;

function readCell(text: string, column: MeasuredColumn, format: NumberFormat): number | Flaw {
  const value = readNumber(text, format);
  if (!Number.isFinite(value)) {
    if (/^[=+\-@]/.test(text))
      return { code: 'formula', found: 'a formula', wanted: 'its value, a plain number' };
    const found = `\`${text.slice(0, 40)}\``;
    const mark = format.decimalComma ? ' with a decimal comma, as others here have' : '';
    return {
      code: 'not-a-number',
      found,
      wanted: `a plain number${mark} in the unit of the header, or nothing`,
    };
  }
  if (column.kind === 'uncertainty') {
    if (value > 0) return value / column.unit.scale;
    return { code: 'uncertainty', found: text, wanted: 'a standard uncertainty above 0, or nothing' };
  }
  if (column.kind === 'note') return value;
  const si = fromUnit(value, column.unit);
  if (column.kind === 'input') return withinRange(si, column.input);
  if (isDriving(column) && !(si > 0)) {
    return { code: 'out-of-range', found: text, wanted: 'a value above 0' };
  }
  return si;
}

function isDriving(column: MeasuredColumn): boolean {
  const driving: readonly number[] = [Q.current, Q.voltage, Q.supply_voltage];
  return column.kind === 'reading' && driving.includes(column.quantity.index);
}

function withinRange(si: number, input: InputSpec): number | Flaw {
  const { minimum, maximum, above, path, unit } = input;
  if (si <= maximum && (above ? si > minimum : si >= minimum)) return si;
  const boundText = (bound: number) =>
    `${Number(toUnit(bound, unit).toPrecision(6))} ${unit.symbol}`.trimEnd();
  const low = Number.isFinite(minimum) ? [`${above ? 'above' : 'at least'} ${boundText(minimum)}`] : [];
  const high = maximum < Number.MAX_VALUE ? [`at most ${boundText(maximum)}`] : [];
  return {
    code: 'out-of-range',
    found: `${path} of ${boundText(si)}`,
    wanted: `a value ${[...low, ...high].join(' and ')}`,
  };
}
