import * as D from '../model/dimension.ts';
import { type Dimension, sameDimension, siSymbol } from '../model/dimension.ts';
import { UNITS, type Unit } from '../model/units.ts';
import { type CompoundUnit, unitSymbol, wholeInverse } from './units.ts';

/**
 * The unit in which people would read an expression: a product of powers of the units in which its names
 * are read. `height / current` is in mm/A, although inside it is m/A.
 */
export interface Display {
  /** Unit names as column suffixes spell them (`mm`, `ohm`) with their exponents, in order of appearance. */
  readonly parts: readonly (readonly [atom: string, exponent: number])[];
  /** Units per SI unit. */
  readonly scale: number;
}

export const NO_UNIT: Display = Object.freeze({ parts: [], scale: 1 });

/** Takes a unit apart by its suffix: `J_per_kg_K` is J^1 kg^-1 K^-1. Null where a name holds a digit inside. */
export function displayOf(unit: Unit): Display | null {
  // money has a sign, and no unit in the names of columns
  if (unit === UNITS.money) return { parts: [['currency', 1]], scale: 1 };
  let sign = 1;
  const parts: [string, number][] = [];
  for (const word of unit.suffix === '' ? [] : unit.suffix.split('_')) {
    const match = /^([A-Za-z]+)(\d*)$/.exec(word);
    if (!match) return null;
    if (word === 'per') sign = -1;
    else parts.push([match[1]!, sign * Number(match[2] || 1)]);
  }
  return { parts, scale: unit.scale };
}

/** A unit as somebody wrote it. */
function displayOfWritten(unit: CompoundUnit): Display {
  return { parts: unit.parts, scale: wholeInverse(unit.factor) ?? 1 / unit.factor };
}

/** Display of `a * b^power`. */
export function combineDisplay(a: Display, b: Display, power: number): Display {
  const parts = new Map(a.parts);
  for (const [atom, exponent] of b.parts) parts.set(atom, (parts.get(atom) ?? 0) + power * exponent);
  return {
    parts: [...parts].filter(([, exponent]) => exponent !== 0),
    scale: power === -1 ? a.scale / b.scale : a.scale * b.scale ** power,
  };
}

const SYMBOLS: Readonly<Record<string, string>> = {
  um: 'µm',
  uF: 'µF',
  uH: 'µH',
  ohm: 'Ω',
  degC: '°C',
  currency: '¤',
};
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

function powerSymbol(atom: string, exponent: number): string {
  const symbol = SYMBOLS[atom] ?? atom;
  if (exponent === 1) return symbol;
  if (!Number.isInteger(exponent)) return `${symbol}^${exponent}`;
  return symbol + [...String(exponent)].map((digit) => SUPERSCRIPTS[Number(digit)]).join('');
}

function powerSuffix(atom: string, exponent: number): string {
  return exponent === 1 ? atom : `${atom}${exponent}`.replace(/\W/g, 'p');
}

function named(parts: Display['parts'], dimension: Dimension, scale: number): Unit {
  const over = parts.filter(([, exponent]) => exponent > 0);
  const under = parts.filter(([, exponent]) => exponent < 0).map(([atom, e]) => [atom, -e] as const);
  const symbols = under.map(([atom, e]) => powerSymbol(atom, e)).join('·');
  const suffixes = under.map(([atom, e]) => powerSuffix(atom, e)).join('_');
  const top = over.map(([atom, e]) => powerSymbol(atom, e)).join('·');
  return Object.freeze({
    symbol: under.length === 0 ? top : `${top || '1'}/${under.length > 1 ? `(${symbols})` : symbols}`,
    suffix: [
      over.map(([atom, e]) => powerSuffix(atom, e)).join('_'),
      under.length === 0 ? '' : `per_${suffixes}`,
    ]
      .filter((text) => text !== '')
      .join('_'),
    dimension,
    scale,
    offset: 0,
  });
}

/** Longest unit that is worth a column name. */
const MAX_PARTS = 6;

function isNameable({ parts, scale }: Display): boolean {
  return (
    parts.length <= MAX_PARTS &&
    parts.every(([, exponent]) => Number.isInteger(exponent)) &&
    Number.isFinite(scale) &&
    scale > 0
  );
}

/** The unit to read an expression in; the SI unit where its own would not be readable. */
export function displayUnit(display: Display | null, dimension: Dimension): Unit {
  if (display === null || !isNameable(display)) return siUnit(display, dimension);
  return named(display.parts, dimension, display.scale);
}

const COHERENT: readonly (readonly [Dimension, string])[] = [
  [D.FORCE, 'N'],
  [D.ENERGY, 'J'],
  [D.POWER, 'W'],
  [D.VOLTAGE, 'V'],
  [D.RESISTANCE, 'ohm'],
  [D.INDUCTANCE, 'H'],
  [D.CAPACITANCE, 'F'],
  [D.FLUX_DENSITY, 'T'],
  [D.FREQUENCY, 'Hz'],
];

/** The SI unit that an atom is a multiple of: as its unit defines it, or itself where the registry alone knows it (VA). */
function coherentOf(atom: string): string | null {
  const symbol = unitSymbol(atom);
  if (symbol !== null) return symbol.coherent;
  return Object.values(UNITS).some(({ suffix, scale }) => suffix === atom && scale === 1) ? atom : null;
}

/**
 * The SI unit of an expression: one name where there is one (V), else its own unit without prefixes (m/A),
 * else base units.
 */
export function siUnit(display: Display | null, dimension: Dimension): Unit {
  if (D.isDimensionless(dimension)) return UNITS.one;
  const coherent = COHERENT.find(([of]) => sameDimension(of, dimension));
  if (coherent) return named([[coherent[1], 1]], dimension, 1);
  if (display !== null && isNameable(display)) {
    const parts = display.parts.map(([atom, exponent]) => [coherentOf(atom), exponent] as const);
    if (parts.every((part): part is [string, number] => part[0] !== null)) {
      const plain = parts.reduce(
        (product, part) => combineDisplay(product, { parts: [part], scale: 1 }, 1),
        NO_UNIT,
      );
      return named(plain.parts, dimension, 1);
    }
  }
  const base = siSymbol(dimension)
    .split(' ')
    .map((text): [string, number] => {
      const [, atom, exponent] = /^([A-Za-z]+)(.*)$/.exec(text)!;
      return [atom!, exponent === '' ? 1 : Number(exponent)];
    });
  return named(base, dimension, 1);
}

/** A unit that a study names, such as mm/A. */
export function writtenUnit(unit: CompoundUnit): Unit {
  const { parts, scale } = displayOfWritten(unit);
  const merged = combineDisplay(NO_UNIT, { parts, scale }, 1);
  return { ...named(merged.parts, unit.dimension, scale), offset: unit.offset === 0 ? 0 : -unit.offset };
}
