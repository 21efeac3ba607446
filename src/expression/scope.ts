import type { Dimension } from '../model/dimension.ts';
import { INPUTS, inputByName } from '../model/inputs.ts';
import type { Derived, Instruction } from '../model/program.ts';
import { QUANTITIES, quantityByName } from '../model/quantities.ts';
import type { Unit } from '../model/units.ts';
import { type Display, displayOf } from './display.ts';
import { didYouMean } from './suggest.ts';

/** What a name in an expression stands for. */
export type Meaning =
  | {
      readonly instruction: Instruction;
      readonly dimension: Dimension;
      readonly display: Display | null;
      readonly point: boolean;
    }
  /** A text input: not a number. `text` describes what to do instead. */
  | { readonly text: string };

export interface Scope {
  resolve(name: string): Meaning | null;
  /** What to write instead of an unknown name. */
  suggest(name: string): string;
}

/** Inputs that are texts, by the names that a number would have. */
const TEXTS: ReadonlySet<string> = new Set([
  'floats',
  'coil_metal',
  'coil_insulation',
  'plate_metal',
  'supply_fuse_kind',
  'supply_fuse_side',
]);

function isText(name: string): boolean {
  return TEXTS.has(name) || /^plate_layers_\d+_metal$/.test(name);
}

const NUMBER_NAMES: readonly string[] = INPUTS.map((input) => input.name).filter((name) => !isText(name));

function isPoint(unit: Unit): boolean {
  return unit.offset !== 0;
}

/** Names an expression may use: quantities, inputs, and what `derive` defined before it. */
export function createScope(derived: readonly Derived[]): Scope {
  const indices = new Map(derived.map((one, index) => [one.name, index]));
  const of = (unit: Unit, instruction: Instruction): Meaning => ({
    instruction,
    dimension: unit.dimension,
    display: isPoint(unit) ? null : displayOf(unit),
    point: isPoint(unit),
  });
  return {
    resolve(name) {
      const quantity = quantityByName(name);
      if (quantity && quantity.words.length > 0) return { text: 'a number; filter the tables by it instead' };
      if (quantity) return of(quantity.unit, { op: 'quantity', index: quantity.index });
      if (isText(name)) return { text: 'a number; fix the text in the rig, or vary it' };
      const input = inputByName(name);
      if (input) return of(input.unit, { op: 'input', slot: input.slot });
      const index = indices.get(name);
      if (index !== undefined) return of(derived[index]!.unit, { op: 'derived', index });
      return null;
    },
    suggest(name) {
      const known = [...QUANTITIES.map((quantity) => quantity.name), ...NUMBER_NAMES, ...indices.keys()];
      return `a known name${didYouMean(name, known)}`;
    },
  };
}
