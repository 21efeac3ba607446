import type { BinaryOp, Comparison, Program, UnaryOp } from '../model/program.ts';

/** Where a program finds its columns, each at least `count` long, SI, NaN where empty. */
export interface Columns {
  readonly count: number;
  quantity(index: number): Float64Array;
  input(slot: number): Float64Array;
  derived(index: number): Float64Array;
}

/** The stack's columns, kept between calls so that evaluating allocates nothing. One per thread. */
export interface Scratch {
  readonly stack: Float64Array[];
}

export function createScratch(): Scratch {
  return { stack: [] };
}

function unary(op: UnaryOp, a: Float64Array, count: number): void {
  switch (op) {
    case 'negate':
      for (let i = 0; i < count; i++) a[i] = -a[i]!;
      return;
    case 'abs':
      for (let i = 0; i < count; i++) a[i] = Math.abs(a[i]!);
      return;
    case 'sqrt':
      for (let i = 0; i < count; i++) a[i] = Math.sqrt(a[i]!);
      return;
    case 'exp':
      for (let i = 0; i < count; i++) a[i] = Math.exp(a[i]!);
      return;
    case 'log':
      for (let i = 0; i < count; i++) a[i] = Math.log(a[i]!);
      return;
    case 'log10':
      for (let i = 0; i < count; i++) a[i] = Math.log10(a[i]!);
      return;
  }
}

function binary(op: BinaryOp, a: Float64Array, b: Float64Array, count: number): void {
  switch (op) {
    case 'add':
      for (let i = 0; i < count; i++) a[i] = a[i]! + b[i]!;
      return;
    case 'subtract':
      for (let i = 0; i < count; i++) a[i] = a[i]! - b[i]!;
      return;
    case 'multiply':
      for (let i = 0; i < count; i++) a[i] = a[i]! * b[i]!;
      return;
    case 'divide':
      for (let i = 0; i < count; i++) a[i] = a[i]! / b[i]!;
      return;
    case 'power':
      // An empty cell stays empty: NaN ** 0 is 1 in the language.
      for (let i = 0; i < count; i++) a[i] = Number.isNaN(a[i]!) ? Number.NaN : a[i]! ** b[i]!;
      return;
    case 'min':
      for (let i = 0; i < count; i++) a[i] = Math.min(a[i]!, b[i]!);
      return;
    case 'max':
      for (let i = 0; i < count; i++) a[i] = Math.max(a[i]!, b[i]!);
      return;
  }
}

/**
 * Evaluates a checked program over whole columns into the first `columns.count` entries of `out`. What is
 * computed and does not come out finite is empty (NaN); a bare name is copied as it is, since a quantity may
 * well be infinite. `out` may be one of the columns that the program reads.
 */
export function evaluateProgram(
  program: Program,
  columns: Columns,
  out: Float64Array,
  scratch: Scratch,
): void {
  const { count } = columns;
  const { stack } = scratch;
  let depth = 0;
  const push = (): Float64Array => {
    let top = stack[depth];
    if (top === undefined || top.length < count) {
      top = new Float64Array(count);
      stack[depth] = top;
    }
    depth++;
    return top;
  };
  const load = (column: Float64Array): void => {
    const top = push();
    for (let i = 0; i < count; i++) top[i] = column[i]!;
  };
  for (const instruction of program) {
    switch (instruction.op) {
      case 'constant':
        push().fill(instruction.value, 0, count);
        break;
      case 'quantity':
        load(columns.quantity(instruction.index));
        break;
      case 'input':
        load(columns.input(instruction.slot));
        break;
      case 'derived':
        load(columns.derived(instruction.index));
        break;
      case 'negate':
      case 'abs':
      case 'sqrt':
      case 'exp':
      case 'log':
      case 'log10':
        unary(instruction.op, stack[depth - 1]!, count);
        break;
      default:
        depth--;
        binary(instruction.op, stack[depth - 1]!, stack[depth]!, count);
    }
  }
  const result = stack[0]!;
  if (program.length === 1) for (let i = 0; i < count; i++) out[i] = result[i]!;
  else for (let i = 0; i < count; i++) out[i] = Number.isFinite(result[i]!) ? result[i]! : Number.NaN;
}

/** What a computed value may be off its bound for its last digits' sake, as a share of the bound. */
const ROUNDING = 1e-9;

/**
 * Whether a limit is met. An empty value (NaN) on either side leaves it unmet. A value that has come to the bound meets
 * `<=` and `>=` whichever way its last digits fell: a drive raised until 260 V are reached meets `voltage <= 260 V`.
 */
export function meets(comparison: Comparison, left: number, right: number): boolean {
  switch (comparison) {
    case '<':
      return left < right;
    case '<=':
      return left <= right || isReached(left, right);
    case '>':
      return left > right;
    case '>=':
      return left >= right || isReached(left, right);
  }
}

function isReached(value: number, bound: number): boolean {
  const off = Math.abs(value - bound);
  return Number.isFinite(off) && off <= ROUNDING * Math.abs(bound);
}
