import type { MathNode, OperatorNode } from 'mathjs';
import type { Dimension } from '../model/dimension.ts';
import { sameDimension } from '../model/dimension.ts';
import type { Comparison, Derived, Limit, Objective, Program } from '../model/program.ts';
import { UNITS, type Unit } from '../model/units.ts';
import { checkComparison } from './arithmetic.ts';
import { check } from './check.ts';
import { displayUnit, siUnit, writtenUnit } from './display.ts';
import { mathjs } from './mathjs.ts';
import { dimensionText } from './measure.ts';
import { flawed, type Outcome } from './outcome.ts';
import { createScope, type Scope } from './scope.ts';
import { Refusal, type Typed } from './typed.ts';
import { parseUnit } from './units.ts';

/** Caps before parsing, so that nothing of a user's text can be costly, and after it. */
const CAPS = Object.freeze({ characters: 500, parentheses: 40, nodes: 200 });

/** Everything else (quotes, brackets, braces, comments, several lines) has no place in an expression. */
const FORBIDDEN = /[^A-Za-z0-9_.,+\-*/^()<>=%! \t]/u;

/** How the parser spells what tables show. */
const SPELT: Readonly<Record<string, string>> = {
  '°': 'degC',
  Ω: 'ohm',
  µ: 'u, as in um',
  μ: 'u, as in um',
  '²': '^2',
  '³': '^3',
  '·': '*',
  '×': '*',
  '≤': '<=',
  '≥': '>=',
};

function refuseText(text: string): void {
  if (text.trim() === '')
    throw new Refusal('empty', 'an empty expression', 'an expression such as height / current');
  if (text.length > CAPS.characters) {
    throw new Refusal('too-long', `${text.length} characters`, `at most ${CAPS.characters} characters`);
  }
  const open = text.split('(').length - 1;
  if (open > CAPS.parentheses) {
    throw new Refusal('too-deep', `${open} open parentheses`, `at most ${CAPS.parentheses}`);
  }
  const odd = FORBIDDEN.exec(text);
  if (odd) {
    const spelt = SPELT[odd[0]];
    const wanted = spelt === undefined ? 'arithmetic only' : `\`${spelt}\``;
    throw new Refusal('character', `\`${odd[0]}\` in an expression`, wanted, odd[0]);
  }
}

/**
 * `0.5 1/s` is how the unit is read, and no expression: `0.5  /s`, of the same length, is the same number. After a division
 * or a power it would not be, and stays an error.
 */
const PER_UNIT = /((?<![/^.\w]\s*)\b\d+(?:\.\d*)?(?:[eE][+-]?\d+)?[ ]+)1(?=[ ]*\/[ ]*[A-Za-z])/g;

function parse(text: string): MathNode {
  refuseText(text);
  let root: MathNode;
  try {
    root = mathjs().parse(text.replace(PER_UNIT, '$1 '));
  } catch (error) {
    const turned = /=[<>]/.exec(text);
    if (turned !== null)
      throw new Refusal('syntax', `\`${turned[0]}\``, turned[0] === '=>' ? '>=' : '<=', turned[0]);
    // The parser gives where it stopped (1-based) beside its wording.
    const { char, message } = error as { char?: number; message?: string };
    const reason = (message ?? 'not an expression').replace(/ \(char \d+\)$/, '');
    throw new SyntaxRefusal(reason, typeof char === 'number' ? char - 1 : 0);
  }
  let nodes = 0;
  root.traverse(() => {
    nodes++;
  });
  if (nodes > CAPS.nodes) throw new Refusal('too-large', `${nodes} terms`, `at most ${CAPS.nodes}`);
  return root;
}

class SyntaxRefusal extends Refusal {
  readonly at: number;
  constructor(reason: string, at: number) {
    super('syntax', `text that is no expression: ${reason}`, 'arithmetic such as height / current');
    this.at = at;
  }
}

/** Runs a check and turns its refusal into a flaw that points at the word in question. */
function attempt<T>(text: string, work: () => T): Outcome<T> {
  try {
    return { ok: true, value: work() };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { code, found, wanted, word } = error;
    if (error instanceof SyntaxRefusal) return flawed(code, found, wanted, error.at, 1);
    const at = word === null ? -1 : findWord(text, word);
    return at < 0 ? flawed(code, found, wanted) : flawed(code, found, wanted, at, word!.length);
  }
}

function findWord(text: string, word: string): number {
  if (!/^\w+$/.test(word)) return text.indexOf(word);
  return new RegExp(`(?<![\\w.])${word}(?!\\w)`).exec(text)?.index ?? -1;
}

function wholeExpression(text: string, scope: Scope): Typed {
  const typed = check(parse(text), scope);
  if (typed.scale !== null) throw new Refusal('bare-scale', '`degC` alone', 'a temperature such as 105 degC');
  return typed;
}

function dependsOnDesign(typed: Typed): boolean {
  return typed.constant === null;
}

/** A limit, such as `current <= 16 A`. */
export function compileLimit(text: string, derived: readonly Derived[]): Outcome<Limit> {
  const scope = createScope(derived);
  return attempt(text, () => {
    const root = parse(text);
    const { op, args } = root as OperatorNode;
    if (root.type === 'RelationalNode') check(root, scope);
    if (root.type !== 'OperatorNode' || !['<', '<=', '>', '>='].includes(op)) {
      throw new Refusal(
        'no-comparison',
        'an expression without a comparison',
        'one of < <= > >=, such as current <= 16 A',
      );
    }
    const left = check(args[0]!, scope);
    const right = check(args[1]!, scope);
    checkComparison(left, right);
    if (!dependsOnDesign(left) && !dependsOnDesign(right)) {
      throw new Refusal('constant', 'a limit that names no quantity', 'a quantity or input on one side');
    }
    return { text: text.trim(), comparison: op as Comparison, left: left.code, right: right.code };
  });
}

/** An objective, such as `height / current`, with the unit in which people read it. */
export function compileObjective(
  text: string,
  sense: Objective['sense'],
  derived: readonly Derived[],
): Outcome<Objective> {
  return attempt(text, () => {
    const typed = wholeExpression(text, createScope(derived));
    if (!dependsOnDesign(typed)) {
      throw new Refusal(
        'constant',
        'an objective that names no quantity',
        'an expression such as height / current',
      );
    }
    const unit = typed.point ? UNITS.degC : displayUnit(typed.display, typed.dimension);
    return { text: text.trim(), sense, program: typed.code, unit };
  });
}

/** A derived quantity. Its column carries the SI unit, or the requested one. */
export function compileDerived(
  name: string,
  text: string,
  derived: readonly Derived[],
  unit: string | null,
): Outcome<Derived> {
  const compiled = attempt(text, () => wholeExpression(text, createScope(derived)));
  if (!compiled.ok) return compiled;
  const typed = compiled.value;
  const wanted = unit === null ? null : requestedUnit(unit, typed);
  if (wanted !== null && 'flaw' in wanted) return { ok: false, flaw: wanted.flaw };
  const shown = wanted ?? (typed.point ? UNITS.degC : siUnit(typed.display, typed.dimension));
  return {
    ok: true,
    value: {
      name,
      column: shown.suffix === '' ? name : `${name}_${shown.suffix}`,
      text: text.trim(),
      program: typed.code,
      unit: shown,
    },
  };
}

function requestedUnit(
  text: string,
  typed: { dimension: Dimension; point: boolean },
): Unit | ReturnType<typeof flawed> {
  const parsed = parseUnit(text);
  if (parsed === null) return flawed('unknown-unit', `\`${text}\` is not a unit`, 'a unit such as mm/A');
  if (!sameDimension(parsed.dimension, typed.dimension)) {
    return flawed(
      'wrong-dimension',
      `\`${text}\` is in ${dimensionText(parsed.dimension)}`,
      `a unit for ${dimensionText(typed.dimension)}`,
    );
  }
  if (typed.point !== (parsed.offset !== 0)) {
    return flawed(
      'wrong-dimension',
      `\`${text}\``,
      typed.point ? 'degC, for a temperature' : 'K, for a difference of temperatures',
    );
  }
  return writtenUnit(parsed);
}

/** Indices of the quantities that a program reads, by itself or through derived ones. */
export function quantitiesOf(program: Program, derived: readonly Derived[]): number[] {
  return program.flatMap((instruction) => {
    if (instruction.op === 'quantity') return [instruction.index];
    return instruction.op === 'derived' ? quantitiesOf(derived[instruction.index]!.program, derived) : [];
  });
}

/** Slots of the inputs that a program reads. */
export function inputsOf(program: Program): number[] {
  return program.flatMap((instruction) => (instruction.op === 'input' ? [instruction.slot] : []));
}
