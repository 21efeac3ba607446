import type { Problem } from '../errors.ts';
import { parseMeasure } from '../expression/measure.ts';
import { INPUTS, type InputSpec, SLOT } from '../model/inputs.ts';
import { QUANTITIES, type Quantity } from '../model/quantities.ts';
import type { Unit } from '../model/units.ts';
import { guessColumn } from './guess-column.ts';

/** What a column of a measured table holds, and the unit that it is in. */
export type MeasuredColumn =
  | { readonly kind: 'reading'; readonly quantity: Quantity; readonly unit: Unit }
  | { readonly kind: 'input'; readonly input: InputSpec; readonly unit: Unit }
  | { readonly kind: 'uncertainty'; readonly of: string; readonly unit: Unit }
  | { readonly kind: 'note' };

/** Ends the name of a column of standard uncertainties: `height_mm_u`. */
const UNCERTAIN = '_u';
/** A column of remarks. */
const NOTE = 'note';

const READINGS = new Map(
  QUANTITIES.filter(({ words }) => words.length === 0).map((quantity) => [quantity.column, quantity]),
);
/** Inputs that are plain numbers; a metal, a grade or a kind of fuse is no measurement. */
const CODED: readonly number[] = [
  SLOT.floats,
  SLOT.plateEdge,
  SLOT.fuseKind,
  SLOT.fuseSide,
  SLOT.isolated,
  SLOT.beyondSupply,
  SLOT.insulationGrade,
];
const SETTINGS = new Map(
  INPUTS.filter(({ slot }) => !CODED.includes(slot)).map((input) => [
    input.unit.suffix === '' ? input.name : `${input.name}_${input.unit.suffix}`,
    input,
  ]),
);
const NAMES = [...READINGS.keys(), ...SETTINGS.keys(), NOTE];

/** Columns by the name of what they hold, without its unit. */
const BY_NAME: ReadonlyMap<string, string> = new Map([
  ...[...SETTINGS].map(([column, { name }]) => [name, column] as const),
  ...[...READINGS].map(([column, { name }]) => [name, column] as const),
]);

export interface HeaderCell {
  readonly text: string;
  readonly offset: number;
  readonly length: number;
}

export interface Header {
  readonly columns: readonly MeasuredColumn[];
  /** As results name them, whatever unit the table has: `current_A` of `current_mA`. */
  readonly names: readonly string[];
  /** Columns that are neither a quantity nor an input, nor look like one. */
  readonly unused: readonly string[];
}

interface Resolved {
  readonly name: string;
  readonly column: MeasuredColumn;
}

/** Whether a text names what a measured table may hold. */
export function isColumnName(text: string): boolean {
  return resolve(text) !== null;
}

/** Whether a text is a foreign name of what a measured table may hold. */
export function looksLikeColumn(text: string): boolean {
  return guessColumn(text, isColumnName) !== null;
}

/**
 * What the columns of a header mean, or what is wrong with it.
 * @param hint a suggestion for a name that is not known, empty for none
 * @param renamed what columns hold whose names differ: `Höhe (mm)` is `height_mm`
 */
export function readHeader(
  cells: readonly HeaderCell[],
  hint: (name: string, known: readonly string[]) => string,
  renamed: ReadonlyMap<string, string> = new Map(),
): Header | { readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const unused: string[] = [];
  const seen = new Set<string>();
  const found = cells.map((cell): Resolved => {
    const { text, offset, length } = cell;
    const refuse = (code: string, what: string, wanted: string) =>
      problems.push({ code, found: what, wanted, offset, length });
    const called = renamed.get(text) ?? text;
    const resolved = resolve(called);
    if (resolved === null) {
      const known = hint(called, NAMES);
      const guess = renamed.has(text) ? null : guessColumn(text, isColumnName);
      if (guess !== null) {
        refuse(
          'unknown-column',
          `the column \`${text}\``,
          `--column '${text}=${guess}', or '${text}=note' to leave it out`,
        );
      } else if (known !== '' || renamed.has(text)) {
        const wanted = `a quantity or an input with its unit, such as height_mm${known}`;
        refuse(
          'unknown-column',
          text === '' ? 'a column without a name' : `the column \`${called}\``,
          wanted,
        );
      } else if (text !== '') unused.push(text);
      return { name: text, column: { kind: 'note' } };
    }
    if (resolved.column.kind !== 'note') {
      if (seen.has(resolved.name))
        refuse('same-column', `the column \`${text}\` a second time`, 'each column once');
      seen.add(resolved.name);
    }
    return resolved;
  });
  found.forEach(({ column, name }, c) => {
    if (column.kind !== 'uncertainty' || seen.has(column.of)) return;
    const { text, offset, length } = cells[c]!;
    const what = `\`${text}\` without a column \`${column.of}\``;
    problems.push({
      code: 'uncertain-nothing',
      found: what,
      wanted: `\`${name.slice(0, -UNCERTAIN.length)}\` beside it`,
      offset,
      length,
    });
  });
  const first = cells[0]!;
  if (problems.length === 0 && !found.some(({ column }) => column.kind === 'reading')) {
    const wanted = 'at least one column such as height_mm, voltage_V or inductance_mH';
    problems.push({ ...first, code: 'no-readings', found: 'nothing that was measured', wanted });
  }
  if (problems.length > 0) return { problems };
  return { columns: found.map(({ column }) => column), names: found.map(({ name }) => name), unused };
}

/** Null for a name that means nothing here. */
function resolve(text: string): Resolved | null {
  if (text === NOTE) return { name: NOTE, column: { kind: 'note' } };
  const plain = exact(text) ?? inOtherUnit(text);
  if (plain !== null) return plain;
  if (!text.endsWith(UNCERTAIN)) return null;
  const base = text.slice(0, -UNCERTAIN.length);
  const of = exact(base) ?? inOtherUnit(base);
  if (of === null || of.column.kind === 'note') return null;
  return {
    name: `${of.name}${UNCERTAIN}`,
    column: { kind: 'uncertainty', of: of.name, unit: of.column.unit },
  };
}

function exact(text: string): Resolved | null {
  const quantity = READINGS.get(text);
  if (quantity) return { name: text, column: { kind: 'reading', quantity, unit: quantity.unit } };
  const input = SETTINGS.get(text);
  return input ? { name: text, column: { kind: 'input', input, unit: input.unit } } : null;
}

/** `current_mA`, `current (mA)`, `current [mA]`, `current / mA`. */
function inOtherUnit(text: string): Resolved | null {
  const [, inBrackets = '', bracketed = ''] =
    /^(\w+?)\s*(?:\(|\[|\/)\s*([^)\]]+?)\s*[)\]]?$/.exec(text) ?? [];
  const names =
    inBrackets === ''
      ? [...text.matchAll(/_/g)].map(({ index }) => [text.slice(0, index), text.slice(index + 1)] as const)
      : [[inBrackets.toLowerCase(), bracketed] as const];
  for (const [name, written] of names) {
    const column = BY_NAME.get(name);
    const known = column === undefined ? null : exact(column);
    if (known === null || known.column.kind === 'note') continue;
    const unit = otherUnit(written, known.column.unit);
    if (unit !== null) return { name: known.name, column: { ...known.column, unit } as MeasuredColumn };
  }
  return null;
}

/** A unit of the same kind, as a column name or a person writes it. */
function otherUnit(written: string, unit: Unit): Unit | null {
  if (unit.suffix === '') return null;
  const text = written.replaceAll('_per_', '/').replaceAll('_', ' ');
  const measure = parseMeasure(`1 ${text}`, unit);
  if (!measure.ok) return null;
  const { factor, offset } = measure.value;
  // written as the registry writes it: its own scale, which is exact
  if (factor === 1 / unit.scale && -offset === unit.offset) return unit;
  return { ...unit, symbol: text, suffix: written, scale: 1 / factor, offset: -offset };
}
