import type { DesignBatch, RowBatch } from '../model/rows.ts';

/** How long a design takes one thread. */
export interface Trial {
  /** Seconds for one design. */
  readonly seconds: number;
  /** Whether it may be longer: the trial was broken off. */
  readonly atLeast: boolean;
}

/** Long enough for the code to be compiled, short enough not to be noticed. */
const TRIAL_MS = 80;
/** Where others want the processor, too, it takes longer to see so many rounds, of which one is left alone. */
const ROUNDS = 10;
const LONGEST_TRIAL_MS = 500;
/** Short beside the turn that a busy processor gives to each; a clock of whole milliseconds still shows a fifth. */
const ROUND_MS = 5;

/** How far a trial is, where another thread sees it: its cells. */
export const TRIAL = { begun: 0, tried: 1 } as const;

export function createTrialState(): Int32Array {
  return new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT));
}

/**
 * Seconds for one design, tried out on a sample. Slow designs are tried one after the other as long as the time allows,
 * and their mean counts. Where the whole sample is tried in that time, the fastest round of as many as fit in a moment
 * counts, since the first ones run before the code is compiled. `now` in ms.
 */
export function timePerDesign(
  evaluate: (batch: DesignBatch) => RowBatch,
  sample: DesignBatch,
  now: () => number,
  state: Int32Array = createTrialState(),
): number {
  const began = now();
  Atomics.store(state, TRIAL.begun, 1);
  const first = timeOneByOne(evaluate, sample, began, now, state);
  if (first !== null) return first;
  let fastest = Number.POSITIVE_INFINITY;
  let before = now();
  const enough = (rounds: number) => before - began >= (rounds < ROUNDS ? LONGEST_TRIAL_MS : TRIAL_MS);
  for (let rounds = 0; !enough(rounds) || rounds === 0; rounds++) {
    let after: number;
    let passes = 0;
    do {
      evaluate(sample);
      passes++;
      after = now();
    } while (after - before < ROUND_MS);
    fastest = Math.min(fastest, (after - before) / passes);
    before = after;
  }
  return fastest / 1000 / sample.count;
}

/** The mean of those that fit in the time; null where all of them do with time to spare. */
function timeOneByOne(
  evaluate: (batch: DesignBatch) => RowBatch,
  { count, values }: DesignBatch,
  began: number,
  now: () => number,
  state: Int32Array,
): number | null {
  const width = values.length / count;
  for (let i = 0; i < count; i++) {
    evaluate({ first: i, count: 1, values: values.slice(i * width, (i + 1) * width) });
    Atomics.store(state, TRIAL.tried, i + 1);
    const passed = now() - began;
    if (passed >= LONGEST_TRIAL_MS) return passed / 1000 / (i + 1);
  }
  return null;
}
