import { CsvError, parse } from 'csv-parse/sync';
import type { Problem } from '../errors.ts';
import { type InputSpec, SLOT } from '../model/inputs.ts';
import type { MeasuredDrive, MeasuredPoint, Reading } from '../model/measured.ts';
import { Q } from '../model/quantities.ts';
import { fromUnit, type Unit } from '../model/units.ts';
import { type HeaderCell, type MeasuredColumn, readHeader } from './measured-columns.ts';

/** Measured points are typed in by hand or logged for an hour; more than this is another kind of file. */
const MAX_BYTES = 1_000_000;
const MAX_ROWS = 2000;
const MAX_COLUMNS = 100;
/** More problems than this help nobody. */
const MAX_PROBLEMS = 50;

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

type Read = { readonly points: readonly MeasuredPoint[] } | { readonly problems: readonly Problem[] };

function refuse(code: string, offset: number, length: number, found: string, wanted: string): Read {
  return { problems: [{ code, offset, length, found, wanted }] };
}

/**
 * A table of measured points (CSV, RFC 4180, `#` starts a line of remarks): columns are named as in the tables of
 * results, with the unit; `<column>_u` holds standard uncertainties; a column of an input sets it for the row. Every
 * problem with its place, or the points in the order of the file.
 */
export function readMeasured(
  source: Uint8Array,
  hint: (name: string, known: readonly string[]) => string,
): Read {
  if (source.length > MAX_BYTES) {
    return refuse('too-large', 0, 1, `more than ${MAX_BYTES} bytes`, 'a table of measured points');
  }
  const lenient = new TextDecoder('utf-8', { ignoreBOM: true }).decode(source);
  const zero = lenient.indexOf('\0');
  if (zero >= 0) return refuse('binary', zero, 1, 'a NUL byte: a binary file', 'CSV: text in UTF-8');
  const odd = lenient.indexOf('\ufffd');
  if (odd >= 0) return refuse('not-utf8', odd, 1, 'bytes that are not UTF-8', 'CSV: text in UTF-8');
  const split = records(lenient);
  if ('problems' in split) return split;
  const broken = split.records.flatMap(({ cells }) => cells).find(({ text }) => /[\r\n]/.test(text));
  if (broken) {
    // a quote that does not close reads on to the next one, and rows would be lost in between without a word
    const found = 'a line break within a value: a quote that does not close?';
    return refuse('line-break', broken.offset, 1, found, 'each value on one line');
  }
  const [header, ...rows] = split.records;
  if (header === undefined || rows.length === 0) {
    return refuse('empty', 0, 1, 'no measured points', 'a header such as current_A,height_mm, then rows');
  }
  if (header.cells.length > MAX_COLUMNS || rows.length > MAX_ROWS) {
    const found = `${rows.length} rows of ${header.cells.length} columns`;
    return refuse('too-large', 0, 1, found, `at most ${MAX_ROWS} rows and ${MAX_COLUMNS} columns`);
  }
  if (header.cells.length === 1 && /[;\t]/.test(header.cells[0]!.text)) {
    const { offset, length } = header.cells[0]!;
    return refuse('separator', offset, length, 'no commas', 'commas between columns, points in numbers');
  }
  const meaning = readHeader(header.cells, hint);
  if ('problems' in meaning) return meaning;

  const problems: Problem[] = [];
  const points = rows.flatMap((row) => {
    const read = readRow(row, header.cells, meaning.columns);
    if ('problems' in read) problems.push(...read.problems);
    return 'point' in read ? [read.point] : [];
  });
  return problems.length > 0 ? { problems: problems.slice(0, MAX_PROBLEMS) } : { points };
}

interface TextRecord {
  readonly line: number;
  readonly cells: readonly HeaderCell[];
}

/** Records with where their cells stand. */
function records(
  text: string,
): { readonly records: readonly TextRecord[] } | { readonly problems: Problem[] } {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  const startOf = (line: number) => starts[Math.min(line, starts.length) - 1]!;
  try {
    const parsed = parse(text, {
      bom: true,
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
  header: readonly HeaderCell[],
  columns: readonly MeasuredColumn[],
): ReadRow {
  const problems: Problem[] = [];
  const at = row.cells[0]!;
  if (row.cells.length !== columns.length) {
    const found = `${row.cells.length} values in line ${row.line}`;
    const wanted = `${columns.length}, as the header has; decimal points, not commas`;
    return { problems: [{ ...at, code: 'columns', found, wanted }] };
  }
  /** SI; NaN for an empty cell. */
  const numbers = new Map<string, number>();
  row.cells.forEach((cell, c) => {
    const column = columns[c]!;
    if (column.kind === 'note' || cell.text === '') return;
    const read = readCell(cell.text, column, unitOf(column, header, columns));
    if (typeof read === 'number') numbers.set(header[c]!.text, read);
    else problems.push({ ...read, offset: cell.offset, length: cell.length });
  });
  if (problems.length > 0) return { problems };

  const { drive, by } = driveOf(numbers);
  const readings = columns.flatMap((column, c): Reading[] => {
    const name = header[c]!.text;
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
    const value = column.kind === 'input' ? numbers.get(header[c]!.text) : undefined;
    const isDrive = column.kind === 'input' && DRIVES.includes(column.input.slot);
    return column.kind === 'input' && value !== undefined && !isDrive
      ? [[column.input.slot, value] as const]
      : [];
  });
  const driveUncertainty = by === null ? 0 : (numbers.get(`${by}_u`) ?? 0);
  return { point: { line: row.line, drive, driveUncertainty, settings, readings } };
}

const DRIVES: readonly number[] = [SLOT.driveCurrent, SLOT.driveVoltage];

/** What a row was driven with, likeliest first; the column that says so is no reading. */
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

function unitOf(
  column: MeasuredColumn,
  header: readonly HeaderCell[],
  columns: readonly MeasuredColumn[],
): Unit | null {
  if (column.kind === 'reading') return column.quantity.unit;
  if (column.kind === 'input') return column.input.unit;
  if (column.kind === 'note') return null;
  return unitOf(columns[header.findIndex(({ text }) => text === column.of)]!, header, columns);
}

type Flaw = Pick<Problem, 'code' | 'found' | 'wanted'>;

function readCell(text: string, column: MeasuredColumn, unit: Unit | null): number | Flaw {
  const value = Number(text);
  if (!NUMBER.test(text) || !Number.isFinite(value)) {
    if (/^[=+\-@]/.test(text))
      return { code: 'formula', found: 'a formula', wanted: 'its value, a plain number' };
    const found = `\`${text.slice(0, 40)}\``;
    return { code: 'not-a-number', found, wanted: 'a plain number in the unit of the header, or nothing' };
  }
  if (column.kind === 'uncertainty') {
    if (value > 0) return value / unit!.scale;
    return { code: 'uncertainty', found: text, wanted: 'a standard uncertainty above 0, or nothing' };
  }
  const si = fromUnit(value, unit!);
  if (column.kind === 'input') return withinRange(si, text, column.input);
  if (isDriving(column) && !(si > 0)) {
    return { code: 'out-of-range', found: text, wanted: 'a value above 0' };
  }
  return si;
}

function isDriving(column: MeasuredColumn): boolean {
  const driving: readonly number[] = [Q.current, Q.voltage, Q.supply_voltage];
  return column.kind === 'reading' && driving.includes(column.quantity.index);
}

function withinRange(si: number, text: string, { minimum, maximum, above, path }: InputSpec): number | Flaw {
  if (si <= maximum && (above ? si > minimum : si >= minimum)) return si;
  return { code: 'out-of-range', found: text, wanted: `a value that ${path} can have` };
}
