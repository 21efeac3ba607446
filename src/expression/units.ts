import * as D from '../model/dimension.ts';
import { combine, type Dimension, NONE, sameDimension } from '../model/dimension.ts';
import { mathjs } from './mathjs.ts';

/** One unit symbol, such as `mm`, with its prefix. */
export interface UnitSymbol {
  readonly dimension: Dimension;
  /** SI units in one of it. */
  readonly factor: number;
  /** Added to a value in the unit before scaling; only degC and degF have one. */
  readonly offset: number;
  /** The SI unit without prefix (but kg) that it is a multiple of: Pa for kPa, m for in; null where there is no name. */
  readonly coherent: string | null;
}

/** Angles are pure numbers, and only these two are wanted: for N m/deg. */
const ANGLES: Readonly<Record<string, UnitSymbol>> = {
  deg: Object.freeze({ dimension: NONE, factor: Math.PI / 180, offset: 0, coherent: null }),
  rad: Object.freeze({ dimension: NONE, factor: 1, offset: 0, coherent: null }),
};

const known = new Map<string, UnitSymbol | null>();

/** A unit from mathjs's list that measures what a rig has; null for others (bits, most angles, candela). */
export function unitSymbol(name: string): UnitSymbol | null {
  let symbol = known.get(name);
  if (symbol === undefined) {
    symbol = lookUp(name);
    known.set(name, symbol);
  }
  return symbol;
}

function lookUp(name: string): UnitSymbol | null {
  if (Object.hasOwn(ANGLES, name)) return ANGLES[name]!;
  const { Unit } = mathjs();
  if (!/^[A-Za-z][A-Za-z0-9]*$/.test(name) || !Unit.isValuelessUnit(name)) return null;
  const { units, dimensions } = new Unit(null, name);
  const [kg = 0, m = 0, s = 0, A = 0, K = 0, ...others] = dimensions;
  const part = units[0];
  if (part === undefined || others.some((exponent) => exponent !== 0)) return null;
  const dimension = [m, kg, s, A, K] as const;
  const own = part.unit.value === 1 && part.unit.offset === 0;
  // what is left of `kPa` without its prefix
  const bare = name.slice(part.prefix.name.length);
  return Object.freeze({
    dimension,
    factor: part.unit.value * part.prefix.value,
    offset: part.unit.offset,
    coherent: own ? bare : siName(dimension),
  });
}

/** SI units with a name, by what they measure: for units that are no SI unit with a prefix. */
const SI_NAMES: readonly (readonly [Dimension, string])[] = [
  [D.LENGTH, 'm'],
  [D.MASS, 'kg'],
  [D.TIME, 's'],
  [D.CURRENT, 'A'],
  [D.TEMPERATURE, 'K'],
  [D.FREQUENCY, 'Hz'],
  [D.FORCE, 'N'],
  [D.PRESSURE, 'Pa'],
  [D.ENERGY, 'J'],
  [D.POWER, 'W'],
  [D.FLUX_DENSITY, 'T'],
];

function siName(dimension: Dimension): string | null {
  return SI_NAMES.find(([of]) => sameDimension(of, dimension))?.[1] ?? null;
}

/** `value` times `factor`; divides where the factor is one over a whole number, as tables do back. */
export function scaleBy(value: number, factor: number): number {
  const inverse = wholeInverse(factor);
  return inverse === null ? value * factor : value / inverse;
}

/** 1000 for 0.001; null where the inverse is not a whole number. */
export function wholeInverse(factor: number): number | null {
  if (!(factor > 0 && factor < 1)) return null;
  const inverse = Math.round(1 / factor);
  return Math.abs(1 / factor - inverse) <= 1e-12 * inverse ? inverse : null;
}

/** A product of unit symbols, such as `kV/mm` or `J/(kg K)`. */
export interface CompoundUnit extends Omit<UnitSymbol, 'coherent'> {
  /** Symbols with their exponents, in the order written. */
  readonly parts: readonly (readonly [symbol: string, exponent: number])[];
}

/** How many symbols and parentheses a unit may have. */
const MAX_TOKENS = 24;

/**
 * Reads a unit: symbols joined by `*`, `/`, blanks and `^n`, with parentheses; as in mathjs, a blank binds
 * tighter than `/`. Null for anything else. A temperature is a scale with a zero (degC) only when it stands
 * alone; in a compound it is a difference.
 */
export function parseUnit(text: string): CompoundUnit | null {
  const tokens = text.match(/[A-Za-z][A-Za-z0-9]*|-?\d+|[*/^()]|\S/g) ?? [];
  if (tokens.length === 0 || tokens.length > MAX_TOKENS) return null;
  let next = 0;
  const parts: [string, number][] = [];
  const factorAt = (sign: number): boolean => {
    const token = tokens[next++];
    if (token === undefined) return false;
    const from = parts.length;
    if (token === '(') {
      if (!product(sign) || tokens[next++] !== ')') return false;
    } else if (token === '1' && next === 1 && tokens[next] === '/') {
      return true;
    } else if (token === '/' && next === 1) {
      next = 0;
      return true;
    } else {
      if (unitSymbol(token) === null) return false;
      parts.push([token, sign]);
    }
    if (tokens[next] === '^') {
      const exponent = Number(tokens[next + 1]);
      if (!Number.isInteger(exponent) || Math.abs(exponent) > 9 || exponent === 0) return false;
      next += 2;
      for (const part of parts.slice(from)) part[1] *= exponent;
    }
    return true;
  };
  const product = (sign: number): boolean => {
    if (!factorAt(sign)) return false;
    let side = sign;
    while (next < tokens.length && tokens[next] !== ')') {
      const operator = tokens[next];
      if (operator === '*' || operator === '/') {
        side = operator === '/' ? -sign : sign;
        next++;
      }
      if (!factorAt(side)) return false;
    }
    return true;
  };
  if (!product(1) || next !== tokens.length || parts.length === 0) return null;
  let dimension: Dimension = NONE;
  let over = 1;
  let under = 1;
  for (const [symbol, exponent] of parts) {
    const unit = unitSymbol(symbol)!;
    dimension = combine(dimension, unit.dimension, exponent);
    const inverse = wholeInverse(unit.factor);
    const flip = inverse === null ? exponent : -exponent;
    const size = (inverse ?? unit.factor) ** Math.abs(exponent);
    if (flip > 0) over *= size;
    else under *= size;
  }
  const alone = parts.length === 1 && parts[0]![1] === 1;
  return {
    dimension,
    factor: over / under,
    offset: alone ? unitSymbol(parts[0]![0])!.offset : 0,
    parts,
  };
}
