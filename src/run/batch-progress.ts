import { formatDuration } from '../text/duration.ts';

/** How far several studies are together, each weighed by the time that it is expected to take. */
export interface BatchProgress {
  /** What a study, counted from 0, takes in all, s, as is known by now. */
  expect(study: number, seconds: number): void;
  /** How much of that is done. `kept`: what came last was there already, and does not show how fast it goes. */
  reach(study: number, seconds: number, kept: boolean): void;
  /** What the study has not done by now will not be done. */
  end(study: number): void;
  /** `all 5: 12 %, 3 h 12 min left`; what is being done knows its own time better. */
  words(now: UnderWay | null): string;
}

/** What is being done: the time that was expected for the rest of it and that it will take at its own speed, s. */
export interface UnderWay {
  readonly expected: number;
  readonly left: number;
}

/** The forecast counts as much as this long an experience of how fast it really goes, s. */
const TRUST = 30;

/** `expected`: s for each study, 0 where there is nothing to do or nobody knows. `now` in ms. */
export function createBatchProgress(expected: readonly number[], now: () => number): BatchProgress {
  const totals = [...expected];
  const done = expected.map(() => 0);
  const began = now();
  let gained = 0;
  const sum = (seconds: readonly number[]) => seconds.reduce((all, one) => all + one, 0);
  return {
    expect(study, seconds) {
      totals[study] = seconds;
    },
    reach(study, seconds, kept) {
      if (!kept) gained += seconds - done[study]!;
      done[study] = seconds;
    },
    end(study) {
      totals[study] = done[study]!;
    },
    words(underWay) {
      const total = sum(totals);
      const reached = sum(done);
      const percent = total > 0 ? Math.floor((100 * reached) / total) : 0;
      const pace = (TRUST + gained) / (TRUST + (now() - began) / 1000);
      const { expected: here, left } = underWay ?? { expected: 0, left: 0 };
      return `all ${expected.length}: ${percent} %, ${formatDuration((total - reached - here) / pace + left)} left`;
    },
  };
}
