import type { PlanSettings } from './study.ts';

/** Designs of the scatter that descents begin with, to a start. */
export const SOBOL_PER_START = 16;

/** No search evaluates more designs than this. */
export function mostDesigns(plan: Exclude<PlanSettings, { kind: 'grid' }>, objectives: number): number {
  switch (plan.kind) {
    case 'sobol':
      return plan.points;
    case 'genetic':
      return plan.population * plan.generations;
    case 'nelder_mead': {
      // each objective alone, and the first one for every combination of the others' levels
      const runs = objectives < 2 ? 1 : objectives + plan.levels ** (objectives - 1);
      return plan.starts * (SOBOL_PER_START + runs * plan.evaluations);
    }
  }
}
