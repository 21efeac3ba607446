import type { Study } from '../model/study.ts';
import { largestBatch } from './batch-size.ts';
import { createGenetic } from './genetic.ts';
import { createGrid } from './grid.ts';
import { createMultiStart } from './multi-start.ts';
import type { Plan } from './plan.ts';
import { createSobolPlan } from './sobol.ts';
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
    case 'sobol':
      return createSobolPlan(createSpace(vary), plan, largest);
    case 'nelder_mead':
      return createMultiStart(createSpace(vary), senses, plan);
    case 'genetic':
      return createGenetic(createSpace(vary), senses, plan, largest);
  }
}
