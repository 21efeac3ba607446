import type { Problem } from '../errors.ts';
import { INPUTS, type InputSpec, SLOT } from '../model/inputs.ts';
import { QUANTITIES, type Quantity } from '../model/quantities.ts';

/** What a column of a measured table holds. */
export type MeasuredColumn =
  | { readonly kind: 'reading'; readonly quantity: Quantity }
  | { readonly kind: 'input'; readonly input: InputSpec }
  | { readonly kind: 'uncertainty'; readonly of: string }
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

export interface HeaderCell {
  readonly text: string;
  readonly offset: number;
  readonly length: number;
}

/**
 * What the columns of a header mean, or what is wrong with it.
 * @param hint a suggestion for a name that is not known, empty for none
 */
export function readHeader(
  cells: readonly HeaderCell[],
  hint: (name: string, known: readonly string[]) => string,
): { readonly columns: readonly MeasuredColumn[] } | { readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const seen = new Set<string>();
  const columns = cells.map(({ text, offset, length }): MeasuredColumn => {
    const refuse = (code: string, found: string, wanted: string) =>
      problems.push({ code, found, wanted, offset, length });
    if (seen.has(text)) refuse('same-column', `the column \`${text}\` a second time`, 'each column once');
    seen.add(text);
    const quantity = READINGS.get(text);
    if (quantity) return { kind: 'reading', quantity };
    const input = SETTINGS.get(text);
    if (input) return { kind: 'input', input };
    const of = text.endsWith(UNCERTAIN) ? text.slice(0, -UNCERTAIN.length) : null;
    if (of !== null && (READINGS.has(of) || SETTINGS.has(of))) {
      if (!cells.some((cell) => cell.text === of)) {
        refuse('uncertain-nothing', `\`${text}\` without a column \`${of}\``, `\`${of}\` beside it`);
      }
      return { kind: 'uncertainty', of };
    }
    if (text !== NOTE) {
      const wanted = `a quantity or an input with its unit, such as height_mm${hint(text, NAMES)}`;
      refuse('unknown-column', text === '' ? 'a column without a name' : `the column \`${text}\``, wanted);
    }
    return { kind: 'note' };
  });
  const first = cells[0]!;
  if (problems.length === 0 && !columns.some(({ kind }) => kind === 'reading')) {
    const wanted = 'at least one column such as height_mm, voltage_V or inductance_mH';
    problems.push({ ...first, code: 'no-readings', found: 'nothing that was measured', wanted });
  }
  return problems.length > 0 ? { problems } : { columns };
}
