import type { Unit } from './units.ts';

/**
 * A checked expression as a stack program in postfix order: plain data, safe to send to a worker, evaluated
 * over whole columns. All values are SI.
 */
export type Instruction =
  | { readonly op: 'constant'; readonly value: number }
  | { readonly op: 'quantity'; readonly index: number }
  | { readonly op: 'input'; readonly slot: number }
  | { readonly op: 'derived'; readonly index: number }
  | { readonly op: UnaryOp }
  | { readonly op: BinaryOp };

export type UnaryOp = 'negate' | 'abs' | 'sqrt' | 'exp' | 'log' | 'log10';
export type BinaryOp = 'add' | 'subtract' | 'multiply' | 'divide' | 'power' | 'min' | 'max';
export type Program = readonly Instruction[];

export type Comparison = '<' | '<=' | '>' | '>=';

export interface Limit {
  readonly text: string;
  readonly comparison: Comparison;
  readonly left: Program;
  readonly right: Program;
  /** Not written by the study but implied by its supply; a row without a value (of an older program) meets it. */
  readonly implied?: true;
}

export interface Objective {
  readonly text: string;
  readonly sense: 'maximise' | 'minimise';
  readonly program: Program;
  /** For display: the unit in which people read this objective, such as mm/A. */
  readonly unit: Unit;
}

export interface Derived {
  readonly name: string;
  readonly column: string;
  readonly text: string;
  /** Empty for a statistic. */
  readonly program: Program;
  readonly unit: Unit;
  /** What a column holds that no program over its row gives. */
  readonly statistic?: Statistic;
}

/** Over the rigs that a design may turn out as, within the study's tolerances. */
export type Statistic =
  | { readonly kind: 'quantile'; readonly fraction: number; readonly quantity: number }
  | { readonly kind: 'probability'; readonly of: 'limits' | 'lifts' };
