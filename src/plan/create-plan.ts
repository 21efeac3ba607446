import type { Study, Task } from '../model/study.ts';
import { largestBatch } from './batch-size.ts';
import { createGenetic } from './genetic.ts';
import { createGrid } from './grid.ts';
import { createMultiStart } from './multi-start.ts';
import type { Plan } from './plan.ts';
import { createSobolPlan } from './sobol.ts';
import { createSpace } from './space.ts';

/** Designs of a plan by which it is known how slow they are. */
const SAMPLE = 48;

type Planned = Pick<Study, keyof Task | 'plan'>;

/** The plan that a study names, at its beginning. */
export function createPlan(study: Planned): Plan {
  const { vary, plan, objectives } = study;
  const senses = objectives.map(({ sense }) => sense);
  const cut = (largest?: number): Plan => {
    switch (plan.kind) {
      case 'grid':
        return createGrid(vary, largest);
      case 'sobol':
        return createSobolPlan(createSpace(vary), plan, largest);
      case 'nelder_mead':
        return createMultiStart(createSpace(vary, plan.resolution), senses, plan, largest);
      case 'genetic':
        return createGenetic(createSpace(vary), senses, plan, largest);
    }
  };
  return cut(largestBatch(study, () => cut().sample(SAMPLE)));
}
