import type { Study, Task } from '../model/study.ts';
import { largestBatch } from './batch-size.ts';
import { createDescend } from './descend.ts';
import { createEvolve } from './evolve.ts';
import { createGrid } from './grid.ts';
import type { Plan } from './plan.ts';
import { createScatter } from './scatter.ts';
import { createSpace } from './space.ts';

/** Designs of a plan by which it is known how slow they are. */
const SAMPLE = 48;

type Planned = Pick<Study, keyof Task | 'plan'>;

/** The plan that a study asks for, at its beginning. */
export function createPlan(study: Planned): Plan {
  const { vary, plan, objectives } = study;
  const senses = objectives.map(({ sense }) => sense);
  const cut = (largest?: number): Plan => {
    switch (plan.kind) {
      case 'grid':
        return createGrid(vary, largest);
      case 'scatter':
        return createScatter(createSpace(vary), plan, largest);
      case 'descend':
        return createDescend(createSpace(vary), senses, plan, largest);
      case 'evolve':
        return createEvolve(createSpace(vary), senses, plan, largest);
    }
  };
  return cut(largestBatch(study, () => cut().sample(SAMPLE)));
}
