import type { Study } from '../model/study.ts';
import { createDescend } from './descend.ts';
import { createEvolve } from './evolve.ts';
import { createGrid } from './grid.ts';
import type { Plan } from './plan.ts';
import { createScatter } from './scatter.ts';
import { createSpace } from './space.ts';

/** The plan that a study asks for, at its beginning. */
export function createPlan({ vary, plan, objectives }: Pick<Study, 'vary' | 'plan' | 'objectives'>): Plan {
  const senses = objectives.map(({ sense }) => sense);
  switch (plan.kind) {
    case 'grid':
      return createGrid(vary);
    case 'scatter':
      return createScatter(createSpace(vary), plan);
    case 'descend':
      return createDescend(createSpace(vary), senses, plan);
    case 'evolve':
      return createEvolve(createSpace(vary), senses, plan);
  }
}
