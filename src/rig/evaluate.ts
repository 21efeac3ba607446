import { QUANTITIES } from '../model/quantities.ts';
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
export function createEvaluator(task: Task): (batch: DesignBatch) => RowBatch {
  const reader = createDesignReader(task);
  const laws = createLaws(task.rig.plateLayers, task.rig.windings);
  const width = task.vary.length;
  const orderOf = createEvaluationOrder(task.vary);
  const { named, judge } = createJudge(task);
  const spread = createSpread(task);

  return (batch) => {
    const { first, count, values } = batch;
    const status = new Uint8Array(count);
    const reason = new Uint8Array(count);
    const quantities = new Float64Array(QUANTITIES.length * count);
    const statistics = spread && new Float64Array(task.derive.length * count);
    const inputs = new Map(named.map((slot) => [slot, new Float64Array(count)]));

    const order = orderOf(batch);
    for (let n = 0; n < count; n++) {
      const i = order ? order[n]! : n;
      reader.read(values, i * width);
      laws.ask(reader.slots);
      status[i] = laws.status;
      reason[i] = laws.reason;
      for (let q = 0; q < QUANTITIES.length; q++) quantities[q * count + i] = laws.results[q]!;
      if (spread) spread.fill(reader.slots, laws.status, statistics!, i, count);
      for (const [slot, cells] of inputs) cells[i] = reader.slots[slot]!;
    }

    const judged = judge({ first, count, status, quantities }, inputs, statistics);
    return { first, count, values, status, reason, quantities, ...judged };
  };
}
