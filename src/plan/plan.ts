import type { DesignBatch } from '../model/rows.ts';
import type { NelderMeadPlan } from '../model/study.ts';
import type { Candidate, JudgedRows } from './candidate.ts';

/**
 * Rows so far -> the next piece of work, or done. One interface for every plan.
 *
 * Work comes in a fixed order and is fixed by the study alone: not by the number of threads, nor by how fast rows come
 * back. Whoever runs a plan gives it the rows in that order, each once; a plan that learns from rows hands out nothing
 * until it has received all that its next piece of work depends on. Rows are numbered in the order in which they come back.
 */
export interface Plan {
  /** How many designs there will be; null while that depends on the rows. */
  readonly total: number | null;
  /** No more designs than this. */
  readonly atMost: number;
  /** No more pieces of work than this can be under way at the same time. */
  readonly atOnce: number;
  /** Nothing more to hand out, whatever rows come back. */
  readonly done: boolean;
  /** How a search went, once it is done; null for a plan that seeks nothing. */
  readonly outcome: SearchOutcome | null;
  /** The next piece of work, its arrays the caller's own; null when done or when rows must come back first. */
  next(): Work | null;
  /** `report` comes with the rows of a descent. Copies what it keeps. */
  receive(rows: JudgedRows, report?: DescentReport): void;
  /** At most `count` designs spread over the whole plan, to judge it by before it runs; their row ids mean nothing. */
  sample(count: number): DesignBatch;
  /** The values of a design by its number, where they follow from that alone: in a grid, not in a sequence that is drawn. */
  readonly design?: (number: number) => Float64Array;
}

/** A plan that knows every design it wants before it is evaluated. */
export interface BatchPlan extends Plan {
  next(): DesignBatch | null;
}

/** A batch of designs to evaluate, or a descent, which finds its designs as it goes. */
export type Work = DesignBatch | Descent;

/** What a descent strives for. */
export interface Terms {
  /** Which objective is improved. */
  readonly objective: number;
  /** What the other objectives' costs may be at most; infinite where they are free. One an objective. */
  readonly caps: readonly number[];
  /** How far each objective's costs lie apart, above 0: what counts as much and as little. */
  readonly extents: readonly number[];
}

/** One start of a descent: plain data, so that a worker can run it. */
export interface Descent extends Terms {
  /** Counts the starts of a plan, from 0. */
  readonly start: number;
  readonly seed: number;
  /** The evaluated design that it starts from. */
  readonly from: Candidate;
  readonly settings: Pick<NelderMeadPlan, 'evaluations' | 'tolerance' | 'resolution'>;
}

/** Why a descent ended: its rounds gained nothing any more, its evaluations were spent, or its thread died. */
export type DescentEnd = 'settled' | 'spent' | 'broken off';

/** How a descent came back with its rows. */
export interface DescentReport {
  /** Index of the best row; the first row is the start. */
  readonly best: number;
  /** Whether the best meets all limits and caps, and does not rest. */
  readonly feasible: boolean;
  readonly end: DescentEnd;
}

/** What came of one start. */
export interface StartRecord extends Omit<Terms, 'extents'> {
  readonly start: number;
  readonly from: Candidate;
  readonly to: Candidate;
  /** Whether it meets all limits and bounds. */
  readonly feasible: boolean;
  /** Whether it does so at rest: the coil or plate never leaves the other. */
  readonly rests: boolean;
  readonly evaluations: number;
  readonly end: DescentEnd;
}

/** Why an evolution ended: all generations done, its front no longer growing, or no new design to be found. */
export type GeneticEnd = 'generations' | 'settled' | 'exhausted';

export type SearchOutcome =
  | { readonly kind: 'nelder_mead'; readonly starts: readonly StartRecord[] }
  | {
      readonly kind: 'genetic';
      readonly end: GeneticEnd;
      readonly generations: number;
      /** The share by which the front's hypervolume grew over the last `patience` generations; 1 where it is not known. */
      readonly growth: number;
    };
