import type { Derived, Limit, Objective } from './program.ts';
import type { Unit } from './units.ts';

/** A value that `vary` gives to a rig in place of a number: a metal, an enamel grade, what floats. */
export interface Choice {
  readonly label: string;
  /** Slot and SI value of every input that the choice fixes; NaN takes an input away. */
  readonly settings: readonly (readonly [slot: number, value: number])[];
  /** Text inputs that it brings, by path: a reel brings the metal of its wire. */
  readonly texts?: Readonly<Record<string, string>>;
  /** Which entry of the stock file it is. */
  readonly entry?: readonly [list: string, index: number];
}

/** A varied number: a design carries its SI value. */
export interface VariedNumber {
  readonly kind: 'number';
  readonly path: string;
  readonly name: string;
  readonly column: string;
  readonly unit: Unit;
  readonly slot: number;
  readonly meaning: string;
  readonly integer: boolean;
  /** SI, in the study's order; a range may have a million. */
  readonly levels: Float64Array;
  /**
   * Where the study leaves the values between two ends to a search: how they are spaced. `levels` are then the two
   * ends, and any number (any whole number, for an integer) from the one to the other is a value.
   */
  readonly between?: Spacing;
}

export type Spacing = 'linear' | 'log';

/** A varied choice: a design carries the index of its level. */
export interface VariedChoice {
  readonly kind: 'choice';
  readonly path: string;
  readonly name: string;
  readonly column: string;
  readonly meaning: string;
  readonly levels: readonly Choice[];
}

export type Varied = VariedNumber | VariedChoice;

/** The rig with everything that does not vary: one SI number per input slot, NaN where absent. */
export interface RigTemplate {
  readonly slots: Float64Array;
  /** How many plate layers the study describes. */
  readonly plateLayers: number;
  /** How many windings `coil.windings` lists; 0 where the coil itself is the one winding. */
  readonly windings: number;
  /** Text inputs that do not vary, by path (`coil.metal`: `copper`), for cards and reports. */
  readonly texts: Readonly<Record<string, string>>;
}

/** Every combination. */
export interface GridPlan {
  readonly kind: 'grid';
}

/** Designs spread evenly over what varies. */
export interface SobolPlan {
  readonly kind: 'sobol';
  readonly points: number;
  readonly seed: number;
}

/** Descents of one objective from many starts; with more objectives, for several levels of the others. */
export interface NelderMeadPlan {
  readonly kind: 'nelder_mead';
  /** Starts of each run. */
  readonly starts: number;
  readonly seed: number;
  /** Levels of each objective besides the first, between its best and its worst on the front. */
  readonly levels: number;
  /** Evaluations that one start may take. */
  readonly evaluations: number;
  /** A round that gains less than this share of how far the objective usually varies has gained nothing. */
  readonly tolerance: number;
  /** A simplex whose best corners are closer than this share of every range is done with. */
  readonly resolution: number;
}

/** An evolutionary search for the front. */
export interface GeneticPlan {
  readonly kind: 'genetic';
  /** Designs of a generation. */
  readonly population: number;
  /** At most so many, the first included. */
  readonly generations: number;
  readonly seed: number;
  /** Ends when the front's hypervolume grew by less than `tolerance` (a share) over so many generations. */
  readonly patience: number;
  readonly tolerance: number;
}

export type PlanSettings = GridPlan | SobolPlan | NelderMeadPlan | GeneticPlan;

/** How far an input of the rig that is built may be from that of the design. */
export interface Tolerance {
  /** As the study calls it. */
  readonly path: string;
  readonly slot: number;
  readonly integer: boolean;
  /** Standard deviation, or for `uniform` the half-width: SI, or a share of the design's own value. */
  readonly size: number;
  readonly relative: boolean;
  readonly distribution: 'normal' | 'uniform';
  /** Values are kept within these, SI. */
  readonly minimum: number;
  readonly maximum: number;
}

/** An input that was fitted to measured points. */
export interface FittedValue {
  /** As the study calls it. */
  readonly path: string;
  readonly slot: number;
  /** SI */
  readonly value: number;
  /** Standard error, SI; NaN where none is stated. */
  readonly error: number;
}

/** What a calibrated study takes from the bench. */
export interface FittedInputs {
  /** The file that it was kept in, and that of the measured points; null where not known. */
  readonly file: string | null;
  readonly measured: string | null;
  /** `drawn`: what the rig of the study gives instead, SI; NaN where it gives nothing. */
  readonly inputs: readonly (FittedValue & { readonly drawn: number })[];
}

/** What a study holds of its stock file, beside what its designs take out of it. */
export interface StockFacts {
  /** Null where the study has it in itself. */
  readonly file: string | null;
  readonly currency: string | null;
  /** Parts without a price, for which costs are empty. */
  readonly unpriced: readonly string[];
}

export interface Study {
  readonly title: string;
  readonly notes: string;
  readonly rig: RigTemplate;
  readonly vary: readonly Varied[];
  readonly derive: readonly Derived[];
  readonly limits: readonly Limit[];
  readonly objectives: readonly Objective[];
  readonly plan: PlanSettings;
  /** Left out where every rig is as its design states. */
  readonly tolerance?: readonly Tolerance[];
  /** Left out where nothing was fitted; the rig has the fitted values. */
  readonly fitted?: FittedInputs;
  /** Left out where there is no stock file. */
  readonly stock?: StockFacts;
  /** What was assumed of metals that are known in part, a sentence each; left out where nothing was. */
  readonly assumed?: readonly string[];
  /** Names of the quantities and derived quantities to write; null: all that were computed. */
  readonly keep: readonly string[] | null;
  /** Quantities on request that the study names, ascending indices; left out where it names none. */
  readonly requested?: readonly number[];
  /** The file as read, byte for byte. */
  readonly text: string;
  /** SHA-256 of `text`, hexadecimal. */
  readonly hash: string;
}

/** The part of a study that a worker needs. Plain data. */
export type Task = Pick<
  Study,
  'rig' | 'vary' | 'derive' | 'limits' | 'objectives' | 'tolerance' | 'requested'
>;
