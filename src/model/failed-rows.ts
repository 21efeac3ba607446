import { quantityColumns } from './quantities.ts';
import type { DesignBatch, RowBatch } from './rows.ts';
import { REASON, STATUS } from './status.ts';
import type { Task } from './study.ts';

/** The rows of designs whose evaluation broke off. */
export function failedRows(
  batch: DesignBatch,
  task: Pick<Task, 'derive' | 'objectives' | 'requested'>,
): RowBatch {
  const { count } = batch;
  const empty = (columns: number) => new Float64Array(count * columns).fill(Number.NaN);
  return {
    ...batch,
    status: new Uint8Array(count).fill(STATUS.failed),
    reason: new Uint8Array(count).fill(REASON.threw),
    feasible: new Uint8Array(count),
    unmet: new Uint32Array(count),
    violation: new Float64Array(count).fill(Number.POSITIVE_INFINITY),
    quantities: empty(quantityColumns(task.requested)),
    derived: empty(task.derive.length),
    objectives: empty(task.objectives.length),
  };
}
