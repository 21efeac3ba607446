import type { DesignBatch } from '../model/rows.ts';
import { batchSize } from './batch-size.ts';
import type { BatchPlan } from './plan.ts';

/** Designs that are known beforehand, by their numbers. */
export interface KnownDesigns {
  readonly total: number;
  /** The batch of `count` designs that begins with number `first`; called in the order of the batches. */
  batch(first: number, count: number): DesignBatch;
  /** `count` of them, spread over all, to judge the plan by before it runs. */
  sample(count: number): DesignBatch;
  /** See Plan. */
  readonly design?: (number: number) => Float64Array;
}

/** A plan that hands out known designs, each once, in their order. Learns nothing from rows. `largest`: most designs of a batch. */
export function createOnePass({ total, batch, sample, design }: KnownDesigns, largest?: number): BatchPlan {
  const size = batchSize(total, largest);
  let first = 0;
  return {
    total,
    atMost: total,
    atOnce: Math.ceil(total / size),
    outcome: null,
    get done() {
      return first >= total;
    },
    next() {
      if (first >= total) return null;
      const made = batch(first, Math.min(size, total - first));
      first += made.count;
      return made;
    },
    receive() {},
    sample: (count) => sample(Math.min(count, total)),
    ...(design && { design }),
  };
}
