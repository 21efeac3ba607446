import type { BatchProgress } from '../run/batch-progress.ts';
import { logProgress, type Progress, showProgress, type Within } from '../run/progress.ts';
import type { Estimate } from '../words/describe-plan.ts';
import type { Io } from './io.ts';

/** A study's place among several, counted from 0, and how far they all are. */
export interface Turn {
  readonly index: number;
  readonly of: number;
  readonly progress: BatchProgress;
}

/** The two that take long, by what is counted in each. */
const NOUNS = { evaluating: 'designs', writing: 'rows of the tables' } as const;

export type Stage = keyof typeof NOUNS;

export interface ProgressSettings {
  readonly quiet: boolean;
  readonly turn: Turn | null;
}

/** How a run of a study shows how far it is: a bar on a terminal, elsewhere a line a minute. */
export function createRunProgress(
  file: string,
  estimate: Estimate,
  { quiet, turn }: ProgressSettings,
  io: Io,
): (stage: Stage) => (total: number) => Progress {
  const whose = turn ? `${file} (${turn.index + 1} of ${turn.of})` : file;
  return (stage) => (total) => {
    const undertaking = {
      total,
      noun: NOUNS[stage],
      within: turn ? withinBatch(turn, estimate, stage, total) : undefined,
    };
    if (quiet) return logProgress(io.stdout, whose, undertaking, io.now);
    return (io.redraws ?? false)
      ? showProgress(io.stderr, undertaking, io.now)
      : logProgress(io.stderr, whose, undertaking, io.now);
  };
}

/** A stage of a study as a part of its batch. A search may have ended early: then fewer designs are to be written. */
function withinBatch({ index, progress }: Turn, estimate: Estimate, stage: Stage, designs: number): Within {
  const { evaluating, writing } = estimate;
  progress.expect(index, designs * (evaluating + writing));
  const before = stage === 'writing' ? designs * evaluating : 0;
  let rest = designs;
  return {
    reach(done, kept) {
      rest = designs - done;
      progress.reach(index, before + done * estimate[stage], kept);
    },
    words: (left) => progress.words(left === null ? null : { expected: rest * estimate[stage], left }),
  };
}
