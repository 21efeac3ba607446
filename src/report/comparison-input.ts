import type { Study } from '../model/study.ts';
import type { Unit } from '../model/units.ts';
import type { CardSection, CardTable } from './card-input.ts';

/** All that a comparison of measured points with the model shows as a page. */
export interface ComparisonInput {
  readonly study: Pick<Study, 'title' | 'hash'>;
  readonly design: number;
  /** Name of the file of measured points. */
  readonly measured: string;
  /** A sentence a quantity: what the model gives and what was measured. */
  readonly words: readonly string[];
  /** Those with points enough for a chart. */
  readonly quantities: readonly ComparedQuantity[];
  /** How the readings stand to the model. */
  readonly standing: CardTable;
  /** Null where nothing was fitted. */
  readonly fit: ComparisonFit | null;
  /** Readings that the model has no answer to; empty for none. */
  readonly unanswered: string;
  /** Of this package. */
  readonly version: string;
}

export interface ComparisonFit {
  readonly inputs: CardSection;
  /** A sentence each. */
  readonly trust: readonly string[];
  /** How the readings stand to the fitted model. */
  readonly standing: CardTable;
}

/** The readings of one quantity that the model answers, in order of their drive; numbers in `unit`. */
export interface ComparedQuantity {
  readonly label: string;
  readonly unit: Unit;
  /** Of differences: kelvin for a temperature. */
  readonly differenceUnit: Unit;
  /** What the readings lie over: `current (A)`, or lines of the file. */
  readonly across: string;
  /** Whether the points are one rig under one changing drive, so that a line through them means something. */
  readonly isCurve: boolean;
  readonly points: readonly ComparedPoint[];
}

export interface ComparedPoint {
  readonly at: number;
  readonly measured: number;
  /** Standard uncertainty of measured minus model; NaN where none is stated. */
  readonly uncertainty: number;
  readonly model: number;
  /** NaN where nothing was fitted, or the fitted model has no answer. */
  readonly fitted: number;
}
