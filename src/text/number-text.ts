import { toUnit, type Unit } from '../model/units.ts';
import { grouped } from './grouped.ts';
import { significant } from './significant.ts';

const MINUS = '−';
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Of an empty cell. */
export const NOTHING = '–';

/** A number as print sets it: that of `significant`, with a true minus and powers of ten (3.3 × 10⁻⁶). */
export function numberText(value: number): string {
  return Number.isNaN(value) ? NOTHING : typeset(significant(value));
}

/**
 * Words that hold plain numbers (`± 7.4e-10 Ω·m`, `-0.43`), set as `numberText` sets them. Not for words that users wrote.
 */
export function typeset(words: string): string {
  return words
    .replace(/(?<=\d)e(-?\d+)(?!\w)/g, (_, exponent: string) => ` × 10${superscript(exponent)}`)
    .replace(/(?<![\w.])-(?=[\d∞])/g, MINUS);
}

function superscript(exponent: string): string {
  return exponent
    .replace('+', '')
    .replace('-', '⁻')
    .replace(/\d/g, (digit) => SUPERSCRIPTS[Number(digit)]!);
}

/** A value that is already in its unit, with the unit's symbol; what is no number has none. */
export function withUnit(value: number, unit: Pick<Unit, 'symbol'>): string {
  const text = numberText(value);
  return unit.symbol === '' || !Number.isFinite(value) ? text : `${text} ${unit.symbol}`;
}

/** An SI value in its unit, with the unit's symbol. */
export function measureText(si: number, unit: Unit): string {
  return withUnit(toUnit(si, unit), unit);
}

/** `1,488 designs`, `1 design`. */
export function countText(count: number, noun: string): string {
  return `${grouped(count)} ${noun}${count === 1 ? '' : 's'}`;
}

/** A label with its unit, as an axis or a column head has it: `coil mass (kg)`. */
export function headText(label: string, unit: Pick<Unit, 'symbol'>): string {
  return unit.symbol === '' ? label : `${label} (${unit.symbol})`;
}
