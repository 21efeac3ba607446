import type { FrontsSoFar } from '../front/resting-last.ts';
import type { Task } from '../model/study.ts';
import type { PartShape } from '../store/part-bytes.ts';
import type { PartName } from '../store/part-name.ts';
import { inOrder } from './in-order.ts';
import { aheadOf, createReaderPool } from './reader-pool.ts';

/** What a worker that judges finished rows anew is born with. */
export interface RejudgeData {
  /** The result folder. */
  readonly folder: string;
  readonly stamp: string;
  /** What the parts were written with. */
  readonly shape: PartShape;
  /** The study with the limits and objectives to judge by. */
  readonly task: Task;
}

/** To such a worker: parts that follow one another. */
export type RejudgeRequest = readonly PartName[];

/**
 * Back: what the new limits and objectives make of their rows, with the ids of the rows that descents start with, or
 * which part cannot be used and why.
 */
export type RejudgeReply =
  | {
      readonly designs: number;
      readonly feasible: number;
      readonly fronts: FrontsSoFar;
      readonly starts: readonly number[];
    }
  | { readonly damaged: string };

export interface Rejudgement extends RejudgeData {
  readonly parts: readonly PartName[];
  readonly threads: number;
  readonly signal: AbortSignal;
}

/** Parts a request: some 30 MB to read, and few messages. */
const PARTS = 8;

/** Judges all rows of a result anew, on worker threads. */
export async function* rejudge(rejudgement: Rejudgement): AsyncGenerator<RejudgeReply> {
  const { folder, stamp, shape, task, parts, threads, signal } = rejudgement;
  const workerData: RejudgeData = {
    folder,
    stamp,
    shape: {
      vary: shape.vary,
      derive: shape.derive,
      objectives: shape.objectives,
      ...(shape.requested && { requested: shape.requested }),
    },
    task: {
      rig: task.rig,
      vary: task.vary,
      derive: task.derive,
      limits: task.limits,
      objectives: task.objectives,
    },
  };
  const pool = createReaderPool<RejudgeRequest, RejudgeReply>({
    worker: 'rejudge',
    workerData,
    threads: Math.max(1, Math.min(threads, Math.ceil(parts.length / PARTS))),
  });
  const stop = () => void pool.stop();
  signal.addEventListener('abort', stop);
  try {
    yield* inOrder(groupsOf(parts), aheadOf(threads), pool.request);
  } finally {
    signal.removeEventListener('abort', stop);
    await pool.stop();
  }
}

function* groupsOf(parts: readonly PartName[]): Generator<RejudgeRequest> {
  for (let at = 0; at < parts.length; at += PARTS) yield parts.slice(at, at + PARTS);
}
