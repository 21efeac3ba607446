import { quantityColumns } from '../model/quantities.ts';
import type { DesignBatch, RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { createDesignReader } from './design.ts';
import { createEvaluationOrder } from './evaluation-order.ts';
import { createJudge } from './judge.ts';
import { createLaws } from './laws.ts';
import { createSpread } from './spread.ts';

/**
 * Designs in, rows out. The evaluator keeps its working arrays from batch to batch; the arrays of a returned
 * batch are its own, so that they can be handed to another thread.
 */
export function createEvaluator(task: Task): Evaluator {
  const reader = createDesignReader(task);
  const laws = createLaws(task.rig.plateLayers, task.rig.windings, task.requested);
  const width = task.vary.length;
  const columns = quantityColumns(task.requested);
  const orderOf = createEvaluationOrder(task.vary);
  const { named, judge } = createJudge(task);
  const spread = createSpread(task);

  /**
   * The loop stands alone: V8 enters it anew in optimised code for each batch, and what came after it, never yet run in that
   * code, made it throw the code away each time.
   */
  function evaluate(batch: DesignBatch, cells: Cells): void {
    const { count, values } = batch;
    const { status, reason, quantities, statistics, inputs } = cells;
    const order = orderOf(batch);
    for (let n = 0; n < count; n++) {
      const i = order ? order[n]! : n;
      reader.read(values, i * width);
      laws.evaluate(reader.slots);
      status[i] = laws.status;
      reason[i] = laws.reason;
      for (let q = 0; q < columns; q++) quantities[q * count + i] = laws.results[q]!;
      if (spread) spread.fill(reader.slots, laws.status, statistics!, i, count);
      for (const [slot, cells] of inputs) cells[i] = reader.slots[slot]!;
    }
  }

  return (batch, quantities = new Float64Array(columns * batch.count)) => {
    const { first, count, values } = batch;
    const status = new Uint8Array(count);
    const reason = new Uint8Array(count);
    const statistics = spread && new Float64Array(task.derive.length * count);
    const inputs = new Map(named.map((slot) => [slot, new Float64Array(count)]));
    evaluate(batch, { status, reason, quantities, statistics, inputs });
    const judged = judge({ first, count, status, quantities }, inputs, statistics);
    return { first, count, values, status, reason, quantities, ...judged };
  };
}

/** `quantities`: where their columns go, whatever it holds; a fresh array where it is left out. */
export type Evaluator = (batch: DesignBatch, quantities?: Float64Array) => RowBatch;

/** What the laws fill for a batch: a cell a design, quantities and statistics a column each. */
interface Cells {
  readonly status: Uint8Array;
  readonly reason: Uint8Array;
  readonly quantities: Float64Array;
  readonly statistics: Float64Array | null;
  /** Slots that limits and objectives name. */
  readonly inputs: ReadonlyMap<number, Float64Array>;
}
