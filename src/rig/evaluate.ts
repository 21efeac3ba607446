import { quantityColumns } from '../model/quantities.ts';
import type { DesignBatch, RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { createDesignReader } from './design.ts';
import { createEvaluationOrder } from './evaluation-order.ts';
import { createJudge } from './judge.ts';
import { createLaws } from './laws.ts';
import { returningPairs } from './returning-pairs.ts';
import { createSpread } from './spread.ts';

/**
 * Designs in, rows out. The evaluator keeps its working arrays from batch to batch; the arrays of a returned
 * batch are its own, so that they can be handed to another thread.
 */
export function createEvaluator(task: Task): Evaluator {
  const reader = createDesignReader(task);
  const laws = createLaws(task.rig.plateLayers, task.rig.windings, task.requested);
  laws.expect(returningPairs(task.vary));
  const width = task.vary.length;
  const columns = quantityColumns(task.requested);
  const orderOf = createEvaluationOrder(task.vary);
  const { named, judge } = createJudge(task);
  const spread = createSpread(task);
  /** Quantities of a batch, row after row. */
  let rows = new Float64Array(0);

  /**
   * The loop stands alone: V8 enters it anew in optimised code for each batch, and what came after it, never yet run in that
   * code, made it throw the code away each time.
   */
  function evaluate(batch: DesignBatch, cells: Cells): void {
    const { count, values } = batch;
    const { status, reason, statistics, inputs } = cells;
    const order = orderOf(batch);
    if (rows.length < columns * count) rows = new Float64Array(columns * count);
    const { results } = laws;
    for (let n = 0; n < count; n++) {
      const i = order ? order[n]! : n;
      reader.read(values, i * width);
      laws.evaluate(reader.slots);
      status[i] = laws.status;
      reason[i] = laws.reason;
      const at = i * columns;
      for (let q = 0; q < columns; q++) rows[at + q] = results[q]!;
      if (spread) spread.fill(reader.slots, laws.status, statistics!, i, count);
      for (let m = 0; m < named.length; m++) inputs[m]![i] = reader.slots[named[m]!]!;
    }
  }

  return (batch, quantities = new Float64Array(columns * batch.count)) => {
    const { first, count, values } = batch;
    const status = new Uint8Array(count);
    const reason = new Uint8Array(count);
    const statistics = spread && new Float64Array(task.derive.length * count);
    const inputs = named.map(() => new Float64Array(count));
    evaluate(batch, { status, reason, statistics, inputs });
    toColumns(rows, count, columns, quantities);
    const bySlot = new Map(named.map((slot, m) => [slot, inputs[m]!]));
    const judged = judge({ first, count, status, quantities }, bySlot, statistics);
    return { first, count, values, status, reason, quantities, ...judged };
  };
}

/** `quantities`: where their columns go, whatever it holds; a fresh array where it is left out. */
export type Evaluator = (batch: DesignBatch, quantities?: Float64Array) => RowBatch;

/** What the laws fill for a batch, quantities apart: a cell a design, statistics a column each. */
interface Cells {
  readonly status: Uint8Array;
  readonly reason: Uint8Array;
  readonly statistics: Float64Array | null;
  /** Slots that limits and objectives name, in their order. */
  readonly inputs: readonly Float64Array[];
}

/**
 * Rows to columns, a few rows at a time: they stay in the nearest cache until the last column has been taken. A row written to
 * its columns at once would touch as many pages of memory as it has quantities.
 */
function toColumns(rows: Float64Array, count: number, columns: number, out: Float64Array): void {
  for (let from = 0; from < count; from += BLOCK) {
    const to = Math.min(count, from + BLOCK);
    for (let q = 0; q < columns; q++) {
      const at = q * count;
      for (let i = from; i < to; i++) out[at + i] = rows[i * columns + q]!;
    }
  }
}

const BLOCK = 16;
