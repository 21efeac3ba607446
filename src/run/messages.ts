import type { DesignBatch, RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';

/** What a worker is born with. */
export interface WorkerData {
  readonly task: Task;
}

/** To a worker: designs. Its array is moved, not copied. */
export type Request = DesignBatch;

/** Back: the evaluated rows, their arrays moved. */
export type Reply = RowBatch;
