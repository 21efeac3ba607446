import type { ConstantNode, FunctionNode, MathNode, OperatorNode, ParenthesisNode, SymbolNode } from 'mathjs';
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
import type { Scope } from './scope.ts';
import { scaleBy, unitSymbol, wholeInverse } from './units.ts';

/**
 * Checks a parsed expression node by node and writes it down as a program. Past 300 lines because the rules
 * for one kind of value lean on those for the others, and reading them apart would hide that.
 *
 * A temperature is a point on a scale, not an amount: 20 degC and 20 degC do not make 40 degC. So a value is
 * a point (`coil_temperature`, `105 degC`), or it is not; points are compared, subtracted from each other,
 * and shifted by kelvins, and nothing else.
 */
export interface Typed {
  readonly code: readonly Instruction[];
  readonly dimension: Dimension;
  /** A temperature on a scale; its values are in kelvin. */
  readonly point: boolean;
  /** Value where it does not depend on the design. */
  readonly constant: number | null;
  /** Whole number whose inverse a bare unit is (1000 for mm): dividing by it rounds better. */
  readonly inverse: number | null;
  /** Set on a bare `degC`, which is no value until it has a number before it. */
  readonly scale: { readonly factor: number; readonly offset: number } | null;
  /** How people would read it; null where only SI is left. */
  readonly display: Display | null;
  /** A literal: its unit gives way to that of a name beside it. */
  readonly literal: boolean;
}

/** Thrown inside this folder only; `compile` turns it into an outcome. */
export class Refusal extends Error {
  readonly code: string;
  readonly found: string;
  readonly wanted: string;
  /** A word of the text at which to point. */
  readonly word: string | null;
  constructor(code: string, found: string, wanted: string, word: string | null = null) {
    super(code);
    this.code = code;
    this.found = found;
    this.wanted = wanted;
    this.word = word;
  }
}

function value(
  code: readonly Instruction[],
  dimension: Dimension,
  display: Display | null,
  rest: Partial<Typed> = {},
): Typed {
  return {
    code,
    dimension,
    point: false,
    constant: null,
    inverse: null,
    scale: null,
    literal: false,
    display,
    ...rest,
  };
}

function constantOf(
  number: number,
  dimension: Dimension,
  display: Display | null,
  rest: Partial<Typed> = {},
): Typed {
  if (!Number.isFinite(number))
    throw new Refusal('overflow', 'a constant that is not finite', 'finite numbers');
  return value([{ op: 'constant', value: number }], dimension, display, {
    constant: number,
    literal: true,
    ...rest,
  });
}

const WRITE_ONLY =
  'numbers with units, names of quantities and inputs, + - * / ^, parentheses, and min max abs sqrt exp log log10';

const OPERATORS: Readonly<Record<string, 'add' | 'subtract' | 'multiply' | 'divide' | 'power'>> = {
  '+': 'add',
  '-': 'subtract',
  '*': 'multiply',
  '/': 'divide',
  '^': 'power',
};

const UNARY_FUNCTIONS = new Set(['abs', 'sqrt', 'exp', 'log', 'log10']);
/** What is asked of a quantity over the study's tolerances: its column is another name. */
const STATISTICS: Readonly<Record<string, (of: string) => string>> = {
  p05: (of) => `${of}_p05`,
  p95: (of) => `${of}_p95`,
  chance: (of) => `chance_${of}`,
};
export const FUNCTIONS: readonly string[] = Object.freeze([
  ...UNARY_FUNCTIONS,
  'min',
  'max',
  ...Object.keys(STATISTICS),
]);

/** The checked meaning of a node; throws a Refusal. */
export function check(node: MathNode, scope: Scope): Typed {
  switch (node.type) {
    case 'ParenthesisNode':
      return check((node as ParenthesisNode).content, scope);
    case 'ConstantNode':
      return checkConstant((node as ConstantNode).value);
    case 'SymbolNode':
      return checkSymbol((node as SymbolNode).name, scope);
    case 'OperatorNode':
      return checkOperator(node as OperatorNode, scope);
    case 'FunctionNode':
      return checkFunction(node as FunctionNode, scope);
    case 'RelationalNode':
      throw new Refusal('chain', 'a chain of comparisons', 'one comparison a limit: split it in two');
    default:
      throw new Refusal('not-allowed', KINDS[node.type] ?? 'something that is not arithmetic', WRITE_ONLY);
  }
}

const KINDS: Readonly<Record<string, string>> = {
  AccessorNode: 'access to a property or an element',
  ArrayNode: 'a matrix',
  AssignmentNode: 'an assignment',
  BlockNode: 'several expressions',
  ConditionalNode: 'a condition',
  FunctionAssignmentNode: 'a function definition',
  IndexNode: 'an index',
  ObjectNode: 'an object',
  RangeNode: 'a range',
};

/** The parser's constants are also true, null and texts. */
function checkConstant(number: unknown): Typed {
  if (typeof number !== 'number') {
    throw new Refusal('not-allowed', `\`${String(number)}\`, which is not a number`, WRITE_ONLY);
  }
  if (!Number.isFinite(number)) {
    throw new Refusal('overflow', 'a number that is not finite', 'finite numbers');
  }
  return constantOf(number, NONE, NO_UNIT);
}

function checkSymbol(name: string, scope: Scope): Typed {
  const meaning = scope.resolve(name);
  if (meaning !== null) {
    if ('text' in meaning)
      throw new Refusal('text-input', `\`${name}\` is a text, not a number`, meaning.text, name);
    const { instruction, dimension, display, point } = meaning;
    return value([instruction], dimension, display, { point });
  }
  const unit = unitSymbol(name);
  if (unit === null) {
    const wanted = scope.suggest(name);
    throw new Refusal(
      'unknown-name',
      `\`${name}\` is no quantity, input, derived quantity or unit`,
      wanted,
      name,
    );
  }
  if (unit.offset !== 0) {
    return constantOf(1, TEMPERATURE, null, { scale: { factor: unit.factor, offset: unit.offset } });
  }
  const inverse = wholeInverse(unit.factor);
  return constantOf(
    unit.factor,
    unit.dimension,
    { parts: [[name, 1]], scale: inverse ?? 1 / unit.factor },
    { inverse },
  );
}

function checkFunction(node: FunctionNode, scope: Scope): Typed {
  const fn: MathNode = node.fn;
  const name = fn.type === 'SymbolNode' ? (fn as SymbolNode).name : null;
  if (name === null)
    throw new Refusal('not-allowed', 'a call of something that is no plain name', WRITE_ONLY);
  if (!FUNCTIONS.includes(name)) {
    const times = scope.resolve(name) !== null || unitSymbol(name) !== null;
    throw new Refusal(
      'unknown-function',
      `\`${name}(…)\` is not a function`,
      times ? `\`${name} * (…)\` for a product` : 'one of min max abs sqrt exp log log10',
      name,
    );
  }
  if (Object.hasOwn(STATISTICS, name)) return checkStatistic(name, node.args, scope);
  const unary = UNARY_FUNCTIONS.has(name);
  const count = node.args.length;
  if (unary ? count !== 1 : count < 2) {
    throw new Refusal(
      'arguments',
      `\`${name}\` with ${count} argument${count === 1 ? '' : 's'}`,
      unary ? 'one argument' : 'two or more arguments',
      name,
    );
  }
  const args = node.args.map((argument) => whole(check(argument, scope)));
  if (!unary) return args.reduce((a, b) => extreme(name as 'min' | 'max', a, b));
  return applyUnary(name as UnaryOp, args[0]!, name);
}

function checkStatistic(name: string, args: readonly MathNode[], scope: Scope): Typed {
  const [of, ...more] = args;
  const whose = of?.type === 'SymbolNode' && more.length === 0 ? (of as SymbolNode).name : null;
  const column = whose === null ? null : STATISTICS[name]!(whose);
  if (column !== null && scope.resolve(column) !== null) return checkSymbol(column, scope);
  const wanted =
    name === 'chance'
      ? 'chance(limits) or chance(lifts), in a study with a tolerance'
      : `${name} of one quantity such as ${name}(height), in a study with a tolerance`;
  throw new Refusal('statistic', `\`${name}(${whose ?? '…'})\``, wanted, name);
}

function checkOperator(node: OperatorNode, scope: Scope): Typed {
  const { op, args } = node;
  if (['<', '<=', '>', '>='].includes(op)) {
    throw new Refusal(
      'comparison',
      `\`${op}\` inside an expression`,
      'a comparison only in a limit, and only one',
    );
  }
  // The parser turns `5 %` into a division by 100 and says so on the node.
  if ((node as { isPercentage?: boolean }).isPercentage === true) {
    throw new Refusal('not-allowed', '`%`', 'a plain fraction, such as 0.9 for 90 percent');
  }
  const kind = OPERATORS[op];
  if (kind === undefined || args.length > 2) throw new Refusal('not-allowed', `\`${op}\``, WRITE_ONLY);
  const first = check(args[0]!, scope);
  if (args.length === 1) {
    if (kind === 'add') return first;
    if (kind === 'subtract') return applyUnary('negate', whole(first), '-');
    throw new Refusal('not-allowed', `\`${op}\``, WRITE_ONLY);
  }
  const second = check(args[1]!, scope);
  switch (kind) {
    case 'add':
    case 'subtract':
      return sum(kind, whole(first), whole(second));
    case 'multiply':
      return product(first, second);
    case 'divide':
      return quotient(whole(first), whole(second));
    case 'power':
      return power(whole(first), whole(second));
  }
}

/** A value that stands on its own: `degC` without a number before it does not. */
function whole(a: Typed): Typed {
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

function applyUnary(op: UnaryOp, a: Typed, name: string): Typed {
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

function sum(op: 'add' | 'subtract', a: Typed, b: Typed): Typed {
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

function product(a: Typed, b: Typed): Typed {
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

function quotient(a: Typed, b: Typed): Typed {
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

function power(a: Typed, b: Typed): Typed {
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

function extreme(op: 'min' | 'max', a: Typed, b: Typed): Typed {
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

/** Checks the two sides of a limit. */
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
