import type { Objective } from '../model/program.ts';
import type { DesignBatch, RowBatch } from '../model/rows.ts';

/** What a search needs to know of an evaluated row. */
export type JudgedRows = DesignBatch & Pick<RowBatch, 'violation' | 'objectives'>;

export type Senses = readonly Objective['sense'][];

/** A design with its verdict, in the terms of a search: less is better. */
export interface Candidate {
  /** Row id. */
  readonly id: number;
  readonly design: Float64Array;
  /** One an objective, turned so that less is better; NaN where empty. */
  readonly costs: Float64Array;
  /** 0 when every limit is met, no objective is empty and it does not rest; more, the farther from that; infinite when there is nothing to judge. */
  readonly violation: number;
}

export function candidates(rows: JudgedRows, senses: Senses): Candidate[] {
  const { first, count, values, objectives, violation } = rows;
  const width = values.length / count;
  return Array.from({ length: count }, (_, i) => {
    const costs = Float64Array.from(senses, (sense, o) => {
      const value = objectives[o * count + i]!;
      return sense === 'maximise' ? -value : value;
    });
    const empty = costs.some(Number.isNaN);
    return {
      id: first + i,
      design: values.slice(i * width, (i + 1) * width),
      costs,
      violation: empty ? Number.POSITIVE_INFINITY : violation[i]!,
    };
  });
}

/**
 * Whether one candidate dominates another, by the feasibility rules: of two that break limits, the one that breaks
 * them less; one that breaks none, any that does; of two that break none, the one that is no worse in every objective
 * and better in one. Source: K. Deb, An efficient constraint handling method for genetic algorithms, Comput. Methods
 * Appl. Mech. Eng. 186 (2000) 311-338, doi:10.1016/S0045-7825(99)00389-8.
 */
export function dominates(a: Candidate, b: Candidate): boolean {
  if (a.violation !== b.violation) return a.violation < b.violation;
  if (a.violation > 0) return false;
  let better = false;
  for (let o = 0; o < a.costs.length; o++) {
    if (a.costs[o]! > b.costs[o]!) return false;
    if (a.costs[o]! < b.costs[o]!) better = true;
  }
  return better;
}
