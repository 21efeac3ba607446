import type { Study } from '../model/study.ts';
import { largestBatch } from './batch-size.ts';
import { createDescend } from './descend.ts';
import { createEvolve } from './evolve.ts';
import { createGrid } from './grid.ts';
import type { Plan } from './plan.ts';
import { createScatter } from './scatter.ts';
import { createSpace } from './space.ts';

type Planned = Pick<Study, 'rig' | 'vary' | 'tolerance' | 'plan' | 'objectives'>;

/** The plan that a study asks for, at its beginning. */
export function createPlan(study: Planned): Plan {
  const { vary, plan, objectives } = study;
  const largest = largestBatch(study);
  const senses = objectives.map(({ sense }) => sense);
  switch (plan.kind) {
    case 'grid':
      return createGrid(vary, largest);
    case 'scatter':
      return createScatter(createSpace(vary), plan, largest);
    case 'descend':
      return createDescend(createSpace(vary), senses, plan);
    case 'evolve':
      return createEvolve(createSpace(vary), senses, plan, largest);
  }
}
