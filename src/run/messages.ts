import type { DesignBatch, RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import type { Descent, DescentReport } from '../plan/plan.ts';
import type { Timing } from './time-per-design.ts';

/** What a worker is born with. */
export interface WorkerData {
  readonly task: Task;
  /** Marks parts as those of the study and of what its rows follow from. */
  readonly stamp: string;
}

/** To a worker: a batch of designs, its array moved, not copied; a descent; or designs to try. */
export type Request = BatchRequest | Descent | TrialRequest;

/** Designs whose rows nobody wants: how long do they take? */
export interface TrialRequest {
  readonly sample: DesignBatch;
  /** Of the whole study. */
  readonly designs: number;
  /** How far it is, shared. */
  readonly state: Int32Array;
}

export interface BatchRequest extends DesignBatch {
  /** Memory for the bytes of a part, or for quantities; null where none is free. */
  readonly memory: SharedArrayBuffer | null;
}

/** Back from a trial. */
export type TrialReply = Timing;

/** Back from a batch: the evaluated rows. Quantities are shared, and all arrays of a part; the others are moved. */
export type Reply = RowBatch;

/** Back from a descent: its rows, ids counted from 0, and how it went. */
export interface DescentReply {
  readonly rows: RowBatch;
  readonly report: DescentReport;
  /** What broke off the first design whose evaluation threw; null when none did. */
  readonly fault: string | null;
}
