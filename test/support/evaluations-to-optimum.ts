import { createMultiStart } from '../../src/plan/multi-start.ts';
import { createSpace } from '../../src/plan/space.ts';
import type { ConstrainedProblem } from './constrained-problems.ts';
import { runSearch } from './run-plan.ts';

/** How many evaluations a search takes until it has a design that meets all limits and costs 1e-6 more than the optimum. */
export function evaluationsToOptimum(problem: ConstrainedProblem, seed: number): number {
  const settings = { starts: 8, levels: 1, evaluations: 5000, tolerance: 1e-8, resolution: 1e-8 };
  const space = createSpace(problem.vary, settings.resolution);
  const plan = createMultiStart(space, problem.senses, { kind: 'nelder_mead', seed, ...settings });
  const enough = problem.optimum + 1e-6 * Math.abs(problem.optimum);
  const reached = ({ costs, violation }: { costs: Float64Array; violation: number }) =>
    violation === 0 && costs[0]! <= enough;
  const all = runSearch(plan, problem, space, reached);
  const at = all.findIndex(reached);
  return at < 0 ? Number.POSITIVE_INFINITY : at + 1;
}
