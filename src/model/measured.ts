import type { Unit } from './units.ts';

/** One value that somebody measured, SI. */
export interface Reading {
  /** Index of the quantity. */
  readonly quantity: number;
  readonly value: number;
  /** Standard uncertainty (JCGM 100), SI; NaN where none is stated. */
  readonly uncertainty: number;
}

/** What was set: a coil current, a voltage at the coil's terminals or at the outlet; `own`: the study's own drive. */
export type MeasuredDrive =
  | { readonly kind: 'current' | 'terminal voltage' | 'outlet voltage'; readonly value: number }
  | { readonly kind: 'own' };

/** One row of a table of measured points. */
export interface MeasuredPoint {
  /** Line of the file, from 1. */
  readonly line: number;
  readonly drive: MeasuredDrive;
  /** Standard uncertainty of the drive, SI; 0 where none is stated. */
  readonly driveUncertainty: number;
  /** Inputs that the row gives besides its drive, SI. */
  readonly settings: readonly (readonly [slot: number, value: number])[];
  readonly readings: readonly Reading[];
}

/** A measured value beside that of the model, SI. */
export interface Residual {
  readonly point: MeasuredPoint;
  readonly reading: Reading;
  /** NaN where the model has no answer. */
  readonly model: number;
  /** Standard uncertainty of the difference, the drive's included; where none is stated, one taken for weighting. */
  readonly sigma: number;
}

/** An input that measured points are to determine. SI. */
export interface FreeInput {
  /** As a study calls it. */
  readonly path: string;
  readonly slot: number;
  readonly unit: Unit;
  readonly start: number;
  /** How far it usually goes. */
  readonly scale: number;
  readonly minimum: number;
  readonly maximum: number;
  /** What is known of it besides these points, with its standard uncertainty. */
  readonly prior: { readonly value: number; readonly error: number } | null;
}

export interface FittedInput {
  readonly free: FreeInput;
  readonly value: number;
  /** Standard uncertainty; NaN where these points do not determine it. */
  readonly error: number;
  readonly atBound: boolean;
}

export interface Calibration {
  readonly fitted: readonly FittedInput[];
  readonly residuals: readonly Residual[];
  /** Sum of the squared differences over their uncertainties, priors left out, and readings minus inputs. */
  readonly chiSquare: number;
  readonly freedom: number;
  /** Whether every reading states its uncertainty; if not, the scatter of the differences gives it. */
  readonly stated: boolean;
  readonly converged: boolean;
  /** Pairs of paths that these points can hardly separate, with their correlation. */
  readonly alike: readonly (readonly [a: string, b: string, correlation: number])[];
  /** Paths that change nothing that was measured. */
  readonly idle: readonly string[];
  /** False where the inputs as a whole cannot be separated; no errors are then known. */
  readonly distinct: boolean;
}
