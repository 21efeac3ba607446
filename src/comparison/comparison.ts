import type { Calibration, Residual } from '../model/measured.ts';
import type { Study } from '../model/study.ts';

/** Measured points beside what the model gives of the same rig. */
export interface Comparison {
  readonly study: Study;
  readonly design: number;
  /** Name of the file of measured points. */
  readonly measured: string;
  readonly residuals: readonly Residual[];
  readonly calibration: Calibration | null;
  /** File of the fitted inputs, where one was written. */
  readonly patch: string | null;
}
