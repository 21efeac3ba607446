import {
  combine,
  type Dimension,
  isDimensionless,
  NONE,
  sameDimension,
  TEMPERATURE,
} from '../model/dimension.ts';
import type { BinaryOp, Instruction, UnaryOp } from '../model/program.ts';
import { combineDisplay, type Display, NO_UNIT } from './display.ts';
import { dimensionText } from './measure.ts';
import { constantOf, Refusal, type Typed, value } from './typed.ts';
import { scaleBy } from './units.ts';

/** What operations make of checked values: dimension, unit and program. Each throws a Refusal for what has no meaning. */

/** A value that stands on its own: `degC` without a number before it does not. */
export function whole(a: Typed): Typed {
  if (a.scale !== null) {
    throw new Refusal(
      'bare-scale',
      '`degC` without a number before it',
      'a temperature such as 105 degC, or K for a difference',
    );
  }
  return a;
}

const NO_ARITHMETIC = 'temperatures only compared, subtracted from each other, or shifted by kelvins (K)';

function refusePoints(what: string, ...args: Typed[]): void {
  if (args.some((a) => a.point)) {
    throw new Refusal('temperature-arithmetic', `${what} of a temperature in degC`, NO_ARITHMETIC);
  }
}

function emit(op: UnaryOp | BinaryOp, ...args: Typed[]): Instruction[] {
  return [...args.flatMap((a) => a.code), { op }];
}

const COMPUTE: Readonly<Record<UnaryOp | BinaryOp, (a: number, b: number) => number>> = {
  negate: (a) => -a,
  abs: Math.abs,
  sqrt: Math.sqrt,
  exp: Math.exp,
  log: Math.log,
  log10: Math.log10,
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  power: (a, b) => a ** b,
  min: Math.min,
  max: Math.max,
};

/** The result of an operation, computed now where everything is known. */
function apply(
  op: UnaryOp | BinaryOp,
  args: readonly Typed[],
  dimension: Dimension,
  display: Display | null,
  rest: Partial<Typed> = {},
): Typed {
  const [a, b] = args;
  if (args.every((arg) => arg.constant !== null)) {
    return constantOf(COMPUTE[op](a!.constant!, b?.constant ?? 0), dimension, display, rest);
  }
  return value(emit(op, ...args), dimension, display, rest);
}

export function applyUnary(op: UnaryOp, a: Typed, name: string): Typed {
  if (op === 'negate') {
    refusePoints('the negative', a);
    return apply(op, [a], a.dimension, a.display);
  }
  refusePoints(`\`${name}\``, a);
  if (op === 'abs') return apply(op, [a], a.dimension, a.display);
  if (op === 'sqrt') {
    const display = a.display === null ? null : combineDisplay(NO_UNIT, a.display, 0.5);
    return apply(op, [a], combine(NONE, a.dimension, 0.5), display);
  }
  if (!isDimensionless(a.dimension)) {
    throw new Refusal(
      'dimension',
      `\`${name}\` of a value in ${dimensionText(a.dimension)}`,
      'a value without unit: divide it by one first',
      name,
    );
  }
  return apply(op, [a], NONE, NO_UNIT);
}

/** Of two values of one dimension, the unit of the one that is not a literal. */
function sharedDisplay(a: Typed, b: Typed): Display | null {
  return a.literal ? b.display : a.display;
}

function requireSame(a: Typed, b: Typed, doing: string): void {
  if (sameDimension(a.dimension, b.dimension)) return;
  const unitless = [a, b].find((one) => isDimensionless(one.dimension) && one.constant !== null);
  const other = unitless === a ? b : a;
  if (unitless !== undefined) {
    const example = other.point ? 'such as 105 degC' : `such as ${exampleOf(unitless.constant!, other)}`;
    throw new Refusal(
      'dimension',
      `${doing} a value in ${other.point ? 'degC' : dimensionText(other.dimension)} and the plain number ${unitless.constant}`,
      `the number with its unit, ${example}`,
    );
  }
  throw new Refusal(
    'dimension',
    `${doing} a value in ${dimensionText(a.dimension)} and one in ${dimensionText(b.dimension)}`,
    'the same dimension on both sides',
  );
}

/** A plain number (SI, if anything) as people would write it beside such a value: 0.003 m is 3 mm. */
function exampleOf(number: number, a: Typed): string {
  const simple = a.display?.parts.length === 1 && a.display.parts[0]![1] === 1 ? a.display : null;
  if (simple === null) return `${number} ${dimensionText(a.dimension)}`;
  return `${Number((number * simple.scale).toPrecision(12))} ${simple.parts[0]![0]}`;
}

export function sum(op: 'add' | 'subtract', a: Typed, b: Typed): Typed {
  requireSame(a, b, op === 'add' ? 'adding' : 'subtracting');
  if (a.point && b.point) {
    if (op === 'add')
      throw new Refusal('temperature-arithmetic', 'the sum of two temperatures in degC', NO_ARITHMETIC);
    return apply(op, [a, b], TEMPERATURE, { parts: [['K', 1]], scale: 1 });
  }
  if (b.point && op === 'subtract') {
    throw new Refusal('temperature-arithmetic', 'kelvins minus a temperature in degC', NO_ARITHMETIC);
  }
  return apply(op, [a, b], a.dimension, sharedDisplay(a, b), { point: a.point || b.point });
}

export function product(a: Typed, b: Typed): Typed {
  const [number, degrees] = b.scale !== null ? [a, b] : [b, a];
  if (degrees.scale !== null) {
    if (number.constant === null || number.scale !== null || !isDimensionless(number.dimension))
      whole(degrees);
    const { factor, offset } = degrees.scale;
    return constantOf(scaleBy(number.constant! + offset, factor), TEMPERATURE, null, { point: true });
  }
  refusePoints('a product', a, b);
  const dimension = combine(a.dimension, b.dimension);
  const display = both(a, b, 1);
  if (a.constant !== null && b.inverse !== null) {
    return constantOf(a.constant / b.inverse, dimension, display, multiplyInverse(a, b));
  }
  return apply('multiply', [a, b], dimension, display);
}

/** The inverse of a product of bare units. */
function multiplyInverse(a: Typed, b: Typed): Partial<Typed> {
  return { inverse: a.inverse === null ? null : a.inverse * b.inverse! };
}

function both(a: Typed, b: Typed, powerOfB: number): Display | null {
  return a.display === null || b.display === null ? null : combineDisplay(a.display, b.display, powerOfB);
}

export function quotient(a: Typed, b: Typed): Typed {
  refusePoints('a quotient', a, b);
  const dimension = combine(a.dimension, b.dimension, -1);
  const display = both(a, b, -1);
  if (a.constant !== null && b.inverse !== null) {
    return constantOf(a.constant * b.inverse, dimension, display);
  }
  return apply('divide', [a, b], dimension, display);
}

/** Far beyond any physical quantity; keeps 1 mm^100000 from quietly becoming zero. */
const MAX_EXPONENT = 12;

export function power(a: Typed, b: Typed): Typed {
  refusePoints('a power', a, b);
  if (!isDimensionless(b.dimension)) {
    throw new Refusal(
      'dimension',
      `an exponent in ${dimensionText(b.dimension)}`,
      'an exponent without unit',
    );
  }
  if (isDimensionless(a.dimension)) return apply('power', [a, b], NONE, NO_UNIT);
  if (b.constant === null) {
    throw new Refusal(
      'dimension',
      'an exponent that differs between designs, on a value with a unit',
      'a constant exponent',
    );
  }
  const exponent = b.constant;
  if (Math.abs(exponent) > MAX_EXPONENT) {
    throw new Refusal(
      'dimension',
      `the exponent ${exponent} on a value with a unit`,
      `an exponent within ${MAX_EXPONENT}`,
    );
  }
  const dimension = combine(NONE, a.dimension, exponent);
  const display = a.display === null ? null : combineDisplay(NO_UNIT, a.display, exponent);
  if (a.inverse !== null && Number.isInteger(exponent) && exponent > 0) {
    const inverse = a.inverse ** exponent;
    return constantOf(1 / inverse, dimension, display, { inverse });
  }
  return apply('power', [a, b], dimension, display);
}

export function extreme(op: 'min' | 'max', a: Typed, b: Typed): Typed {
  requireSame(a, b, `the ${op} of`);
  if (a.point !== b.point && (a.point ? b : a).constant === null) {
    throw new Refusal(
      'temperature-arithmetic',
      `the ${op} of a temperature in degC and a difference in K`,
      NO_ARITHMETIC,
    );
  }
  return apply(op, [a, b], a.dimension, sharedDisplay(a, b), { point: a.point || b.point });
}

/** Refuses two sides of a limit that do not compare. */
export function checkComparison(left: Typed, right: Typed): void {
  whole(left);
  whole(right);
  requireSame(left, right, 'comparing');
  if (left.point !== right.point && (left.point ? right : left).constant === null) {
    throw new Refusal(
      'temperature-comparison',
      'a temperature compared with a difference in K',
      'another temperature, such as 105 degC',
    );
  }
}
