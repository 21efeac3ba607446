import { failedRows } from '../model/failed-rows.ts';
import { joinBatches } from '../model/row-batches.ts';
import type { DesignBatch, RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import type { Descent } from '../plan/plan.ts';
import type { DescentReply } from './messages.ts';
import type { Pool } from './pool.ts';

type Worker = Pick<Pool, 'evaluate' | 'descend'>;

/** How work is done, and who hears of faults. */
export interface Evaluation {
  readonly task: Task;
  /** Threads that a piece of work may share with others. */
  readonly pool: Worker;
  /** A thread that nothing else is on, so that a fault there is the work's own. */
  readonly quarantine: () => Worker;
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
    return await evaluation.pool.evaluate(batch);
  } catch (error) {
    if (evaluation.stopped()) throw error;
    return suspect(batch, evaluation);
  }
}

async function suspect(batch: DesignBatch, evaluation: Evaluation): Promise<RowBatch> {
  try {
    return await evaluation.quarantine().evaluate(batch);
  } catch (error) {
    if (evaluation.stopped()) throw error;
    if (batch.count > 1) {
      const half = batch.count >> 1;
      const front = await suspect(part(batch, 0, half), evaluation);
      const back = await suspect(part(batch, half, batch.count), evaluation);
      return joinBatches([front, back]);
    }
    evaluation.onFault(describeFault(error));
    return failedRows(batch, evaluation.task);
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

/**
 * Rows of a descent, come what may. It takes a design whose evaluation throws for a failed one and goes on; when its
 * thread dies, and dies again in quarantine, its start becomes a `failed` row. Rejects only once stopped.
 */
export async function isolateDescent(descent: Descent, evaluation: Evaluation): Promise<DescentReply> {
  const { pool, quarantine, stopped, onFault, task } = evaluation;
  try {
    const reply = await pool.descend(descent).catch((error) => {
      if (stopped()) throw error;
      return quarantine().descend(descent);
    });
    if (reply.fault !== null) onFault(reply.fault);
    return reply;
  } catch (error) {
    if (stopped()) throw error;
    onFault(describeFault(error));
    const rows = failedRows({ first: 0, count: 1, values: descent.from.design }, task);
    return { rows, report: { best: 0, feasible: false, end: 'broken off' }, fault: null };
  }
}

function describeFault(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
