import { createFrontArchive } from '../front/front-archive.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createGrid } from '../plan/grid.ts';
import { evaluateStudy } from '../run/evaluate-study.ts';
import { type Progress, showProgress } from '../run/progress.ts';
import { explainEmptyFront } from '../table/empty-front.ts';
import type { Io } from './io.ts';

export interface Evaluated {
  readonly interrupted: boolean;
  /** In design order. */
  readonly batches: readonly RowBatch[];
  readonly designs: number;
  /** Ids of the front, ascending. */
  readonly front: Float64Array;
  readonly fault: string | null;
  /** A few lines for a front that has no design. */
  readonly whyEmpty: string;
}

export interface Effort {
  readonly threads: number;
  /** Whether to show progress, if there is a terminal to show it on. */
  readonly progress: boolean;
}

/** Every row of a study, and its front. */
export async function evaluateAll(study: Study, effort: Effort, io: Io): Promise<Evaluated> {
  const plan = createGrid(study.vary);
  const archive = createFrontArchive(study.objectives.map(({ sense }) => sense));
  const emptiness = explainEmptyFront(study);
  const batches: RowBatch[] = [];
  const bar: Progress | null = effort.progress ? showProgress(io.stderr, plan.total!, io.now) : null;
  try {
    const { interrupted, designs, fault } = await evaluateStudy({
      plan,
      task: study,
      threads: effort.threads,
      signal: io.signal,
      onRows: (rows) => {
        batches.push(rows);
        emptiness.add(rows);
        const objectives = study.objectives.map((_, i) => column(rows, rows.objectives, i));
        archive.add(rows.first, objectives, rows.feasible);
      },
      onProgress: (done) => bar?.update(done),
    });
    const front = archive.front().ids;
    return { interrupted, batches, designs, front, fault, whyEmpty: emptiness.words() };
  } finally {
    bar?.stop();
  }
}
