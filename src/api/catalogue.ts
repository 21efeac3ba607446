import { INPUTS } from '../model/inputs.ts';
import { METALS } from '../model/metals.ts';
import { QUANTITIES } from '../model/quantities.ts';

/** A quantity that is computed for every design, or on request. */
export interface Quantity {
  /** In expressions: `height`. */
  readonly name: string;
  /** In rows: `height_mm`. */
  readonly column: string;
  readonly unit: string;
  readonly label: string;
  readonly group: string;
  readonly meaning: string;
  /** Its values, where these are words. */
  readonly words: readonly string[];
  /** Computed where a study names it, since it costs more than the rest. */
  readonly onRequest: boolean;
}

/** Everything that is computed of a design, in the order of tables. */
export const quantities: readonly Quantity[] = QUANTITIES.map(
  ({ name, column, unit, label, group, meaning, words, effort }) =>
    Object.freeze({ name, column, unit: unit.symbol, label, group, meaning, words, onRequest: effort > 0 }),
);

/** An input of a rig. */
export interface Input {
  /** In study files, below `rig`, and for `evaluate`: `plate.layers.0.thickness`, or `plate.thickness` of one layer. */
  readonly path: string;
  /** In expressions. */
  readonly name: string;
  readonly unit: string;
  readonly meaning: string;
  readonly integer: boolean;
}

/** All inputs that a rig may have. */
export const inputs: readonly Input[] = INPUTS.map(({ path, name, unit, meaning, integer }) =>
  Object.freeze({ path, name, unit: unit.symbol, meaning, integer }),
);

/** Names of the metals that a study may name. */
export const metals: readonly string[] = METALS.map(({ name }) => name);
