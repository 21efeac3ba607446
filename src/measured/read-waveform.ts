import { UsageError } from '../errors.ts';
import type { Waveform } from './analyse-waveform.ts';
import { numberFormat, readNumber } from './number-format.ts';

/** Which column, and what one of it is in V or A: `CH2*10` of a probe of 100 mV/A. Null: by its name. */
export interface WaveformColumns {
  readonly time: string | null;
  readonly voltage: string | null;
  readonly current: string | null;
}

/** Rows of numbers in a row that make a table, after whatever an instrument writes above it. */
const FEWEST_ROWS = 16;

interface Column {
  readonly name: string;
  /** As written in a name or a row of units; empty where there is none. */
  readonly unit: string;
  readonly values: Float64Array;
}

/**
 * Time, voltage and current of an oscilloscope's table: whatever it writes above and beside the columns is passed over;
 * commas, semicolons or tabs, points or decimal commas. Throws UsageError where that cannot be done.
 */
export function readWaveform(text: string, columns: WaveformColumns): Waveform {
  const table = tableOf(text);
  const names = table.map(({ name }) => name).join(', ');
  const time = columns.time === null ? table[0]! : named(table, columns.time, '--time', names).column;
  const rest = table.filter((column) => column !== time);
  const choose = (option: '--voltage' | '--current', written: string | null, unit: string, words: RegExp) => {
    if (written !== null) return named(table, written, option, names);
    const found = rest.filter(
      (column) => column.unit.replace(/^[munµk]/, '') === unit || words.test(column.name),
    );
    if (found.length === 1) return { column: found[0]!, factor: 1 };
    const example = option === '--voltage' ? "--voltage 'CH1*100'" : "--current 'CH2*10'";
    throw new UsageError(
      `which column is the ${option.slice(2)}? There are ${names}. Give ${example}: a column, times what one of it is in ${unit}`,
    );
  };
  const voltage = choose('--voltage', columns.voltage, 'V', /volt|spannung|tension|^u\b/i);
  const current = choose('--current', columns.current, 'A', /current|strom|courant|amp|^i\b/i);
  if (voltage.column === current.column) {
    throw new UsageError(
      `${voltage.column.name} cannot be voltage and current: give --voltage and --current`,
    );
  }
  const seconds = prefixOf(time.unit, 's');
  const kept = [...time.values.keys()].filter((row) =>
    [time, voltage.column, current.column].every(({ values }) => !Number.isNaN(values[row]!)),
  );
  const times = Float64Array.from(kept, (row) => time.values[row]! * seconds);
  for (let k = 1; k < times.length; k++) {
    if (!(times[k]! > times[k - 1]!)) {
      throw new UsageError(`the times of ${time.name} do not rise: name the column of times with --time`);
    }
  }
  if (times.length < FEWEST_ROWS) throw new UsageError(`${times.length} samples: at least ${FEWEST_ROWS}`);
  const scaled = ({ column, factor }: typeof voltage, unit: string) => {
    const scale = factor * prefixOf(column.unit, unit);
    return Float64Array.from(kept, (row) => column.values[row]! * scale);
  };
  return { times, voltage: scaled(voltage, 'V'), current: scaled(current, 'A') };
}

function named(table: readonly Column[], written: string, option: string, names: string) {
  const [, name = '', factor = '1'] =
    /^(.*?)(?:\s*[*×]\s*([-+]?[\d.]+(?:e[-+]?\d+)?))?$/i.exec(written.trim()) ?? [];
  const column =
    table.find((each) => each.name === name) ??
    table.find((each) => each.name.toLowerCase() === name.toLowerCase());
  if (!column || !Number.isFinite(Number(factor)) || Number(factor) === 0) {
    throw new UsageError(
      `${option} ${JSON.stringify(written)}: wanted one of ${names}, or such a column times a number`,
    );
  }
  return { column, factor: Number(factor) };
}

/** 0.001 for `ms`; 1 where the unit is the plain one or another. */
function prefixOf(unit: string, plain: string): number {
  const prefixes: Readonly<Record<string, number>> = { n: 1e-9, u: 1e-6, µ: 1e-6, μ: 1e-6, m: 1e-3, k: 1e3 };
  const [prefix = '', rest = ''] = [unit.slice(0, -plain.length), unit.slice(-plain.length)];
  return rest === plain ? (prefixes[prefix] ?? 1) : 1;
}

function tableOf(text: string): readonly Column[] {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/);
  const format = numberFormat(lines.slice(0, 200));
  const cellsOf = (line: string) =>
    line.split(format.separator).map((cell) =>
      cell
        .trim()
        .replace(/^"(.*)"$/, '$1')
        .trim(),
    );
  const isRow = (line: string) => {
    const numbers = cellsOf(line).filter((cell) => !Number.isNaN(readNumber(cell, format)));
    return numbers.length >= 2;
  };
  let begin = 0;
  let length = 0;
  for (let at = 0; at < lines.length && length < FEWEST_ROWS; at++) {
    if (isRow(lines[at]!)) length++;
    else if (lines[at]!.trim() !== '') length = 0;
    if (length === 1 && isRow(lines[at]!)) begin = at;
  }
  if (length < FEWEST_ROWS) {
    throw new UsageError(
      `no table of ${FEWEST_ROWS} rows of numbers or more in it: wanted an oscilloscope's samples as CSV`,
    );
  }
  const rows = lines
    .slice(begin)
    .filter((line) => line.trim() !== '')
    .map(cellsOf);
  const width = Math.max(...rows.slice(0, FEWEST_ROWS).map((row) => row.length));
  // what stands right above, names first, then units
  const above = lines
    .slice(0, begin)
    .filter((line) => line.trim() !== '')
    .slice(-2)
    .map(cellsOf);
  const isUnits =
    above.length === 2 &&
    above[1]!.some((cell) => UNIT.test(cell)) &&
    above[1]!.every((cell) => cell === '' || UNIT.test(cell));
  const heads = isUnits ? above[0] : above.at(-1);
  return Array.from({ length: width }, (_, c) => {
    const head = heads?.[c] ?? '';
    const [, inName = ''] = /[([/_ ]\s*([munµkμ]?[sVA])\s*[)\]]?$/.exec(head) ?? [];
    const unit = isUnits ? (above[1]![c] ?? '').replace(/[()[\]]/g, '') : inName;
    const full = /^(?:sec|second)s?$/i.test(unit)
      ? 's'
      : /^volts?$/i.test(unit)
        ? 'V'
        : /^amp(?:ere)?s?$/i.test(unit)
          ? 'A'
          : unit;
    const values = Float64Array.from(rows, (row) => readNumber(row[c] ?? '', format));
    return { name: head === '' ? `column ${c + 1}` : head, unit: full, values };
  }).filter(
    ({ values }) =>
      values.reduce((sum, value) => sum + (Number.isNaN(value) ? 0 : 1), 0) > 0.9 * values.length,
  );
}

const UNIT = /^[([]?(?:[munµkμ]?[sVA]|seconds?|sec|volts?|amp(?:ere)?s?)[)\]]?$/i;
