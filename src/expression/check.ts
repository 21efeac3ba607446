import type { ConstantNode, FunctionNode, MathNode, OperatorNode, ParenthesisNode, SymbolNode } from 'mathjs';
import { NONE, TEMPERATURE } from '../model/dimension.ts';
import type { UnaryOp } from '../model/program.ts';
import { applyUnary, extreme, power, product, quotient, sum, whole } from './arithmetic.ts';
import { NO_UNIT } from './display.ts';
import type { Scope } from './scope.ts';
import { didYouMean } from './suggest.ts';
import { constantOf, Refusal, type Typed, value } from './typed.ts';
import { unitSymbol, wholeInverse } from './units.ts';

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
/** A statistic of a quantity over the study's tolerances: its column is another name. */
const STATISTICS: Readonly<Record<string, (of: string) => string>> = {
  p05: (of) => `${of}_p05`,
  p95: (of) => `${of}_p95`,
  probability: (of) => `probability_${of}`,
};
export const FUNCTIONS: readonly string[] = Object.freeze([
  ...UNARY_FUNCTIONS,
  'min',
  'max',
  ...Object.keys(STATISTICS),
]);

/** The checked meaning of a parsed expression, node by node; throws a Refusal. */
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
      times
        ? `\`${name} * (…)\` for a product`
        : `one of min max abs sqrt exp log log10${didYouMean(name, FUNCTIONS)}`,
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
    name === 'probability'
      ? 'probability(limits) or probability(lifts), in a study with a tolerance'
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
  // The parser turns `5 %` into a division by 100 and marks the node.
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
