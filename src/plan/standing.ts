import type { Candidate } from './candidate.ts';
import type { Terms } from './plan.ts';

/** How a design stands under the terms of a descent: violation 0 is feasible; the cost is in units of the extent. */
export interface Standing {
  readonly cost: number;
  readonly violation: number;
}

/** A cap adds to the violation as a limit does, with the objective's extent for a scale. */
export function standingOf({ costs, violation }: Candidate, { objective, caps, extents }: Terms): Standing {
  let total = violation;
  costs.forEach((cost, o) => {
    const excess = (cost - caps[o]!) / extents[o]!;
    if (excess > 0) total += excess / (1 + excess);
  });
  return { cost: costs[objective]! / extents[objective]!, violation: total };
}

/** The feasibility rules, as `dominates` has them, with one objective. */
export function isBetter(a: Standing, b: Standing): boolean {
  return a.violation === b.violation ? a.cost < b.cost : a.violation < b.violation;
}
