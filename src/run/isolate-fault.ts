import { QUANTITIES } from '../model/quantities.ts';
import type { DesignBatch, RowBatch } from '../model/rows.ts';
import { REASON, STATUS } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { joinRows } from './join-rows.ts';

/** How batches are evaluated, and who hears of faults. */
export interface Evaluation {
  readonly task: Task;
  /** Evaluates a batch on a thread that it may share with others. */
  readonly evaluate: (batch: DesignBatch) => Promise<RowBatch>;
  /** Evaluates a batch on a thread that nothing else is on, so that its fault is its own. */
  readonly quarantine: (batch: DesignBatch) => Promise<RowBatch>;
  /** True once nobody waits for the rows any more. */
  readonly stopped: () => boolean;
  readonly onFault: (message: string) => void;
}

/**
 * Rows of a batch, come what may. When its evaluation breaks off it is tried once more in quarantine (the thread may
 * have died of another batch), then halved, until the design to blame stands alone and becomes a `failed` row.
 * Rejects only once stopped.
 */
export async function isolateFault(batch: DesignBatch, evaluation: Evaluation): Promise<RowBatch> {
  try {
    return await evaluation.evaluate(batch);
  } catch (error) {
    if (evaluation.stopped()) throw error;
    return suspect(batch, evaluation);
  }
}

async function suspect(batch: DesignBatch, evaluation: Evaluation): Promise<RowBatch> {
  try {
    return await evaluation.quarantine(batch);
  } catch (error) {
    if (evaluation.stopped()) throw error;
    if (batch.count > 1) {
      const half = batch.count >> 1;
      const front = await suspect(part(batch, 0, half), evaluation);
      const back = await suspect(part(batch, half, batch.count), evaluation);
      return joinRows(front, back);
    }
    evaluation.onFault(error instanceof Error ? error.message : String(error));
    return failedRow(batch, evaluation.task);
  }
}

function part(batch: DesignBatch, from: number, to: number): DesignBatch {
  const width = batch.values.length / batch.count;
  return {
    first: batch.first + from,
    count: to - from,
    values: batch.values.slice(from * width, to * width),
  };
}

function failedRow(batch: DesignBatch, task: Task): RowBatch {
  const empty = (columns: number) => new Float64Array(columns).fill(Number.NaN);
  return {
    ...batch,
    status: Uint8Array.of(STATUS.failed),
    reason: Uint8Array.of(REASON.threw),
    feasible: Uint8Array.of(0),
    unmet: Uint32Array.of(0),
    quantities: empty(QUANTITIES.length),
    derived: empty(task.derive.length),
    objectives: empty(task.objectives.length),
  };
}
