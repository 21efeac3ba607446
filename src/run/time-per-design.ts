import type { DesignBatch, RowBatch } from '../model/rows.ts';

/** How long a design takes one thread. */
export interface Trial extends Timing {
  /** Whether it may be longer: the trial was broken off. */
  readonly atLeast: boolean;
}

/** Long enough for the code to be compiled, short enough not to be noticed. */
const TRIAL_MS = 80;
/** Where others want the processor, too, it takes longer to see so many rounds. */
const ROUNDS = 10;
const LONGEST_TRIAL_MS = 500;
/** Short beside the turn that a busy processor gives to each; a clock of whole milliseconds still shows a fifth. */
const ROUND_MS = 5;

/** How far a trial is, where another thread sees it: its cells. */
export const TRIAL = { begun: 0, tried: 1 } as const;

export function createTrialState(): Int32Array {
  return new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT));
}

/** A moment by two clocks, ms: of the wall, and of the processor's work for this process so far. */
export interface Moment {
  readonly wall: number;
  readonly busy: number;
}

/** Of a trial that came to its end: processor seconds for one design, and by how much longer it took on the wall. */
export interface Timing {
  readonly seconds: number;
  readonly slowdown: number;
}

/**
 * What work took, ms. On a busy machine the wall's clock goes on while others have the processor, and the processor's counts
 * other threads of this process: the work took neither more than the one nor more than the other says.
 */
function between(before: Moment, after: Moment): number {
  return Math.min(after.wall - before.wall, after.busy - before.busy);
}

/**
 * Time for one design, tried out on a sample. Slow designs are tried one after the other as long as the time allows,
 * and their mean counts. Where the whole sample is tried in that time, the fastest round of as many as fit in a moment
 * counts, since the first ones run before the code is compiled. Where all `designs` of a study take no longer than that
 * moment, the first pass is enough.
 */
export function timePerDesign(
  evaluate: (batch: DesignBatch) => RowBatch,
  sample: DesignBatch,
  now: () => Moment,
  state: Int32Array = createTrialState(),
  designs = Number.POSITIVE_INFINITY,
): Timing {
  const began = now();
  Atomics.store(state, TRIAL.begun, 1);
  const first = timeOneByOne(evaluate, sample, began, now, state);
  if (first !== null) return first;
  const passed = now();
  const each = between(began, passed) / sample.count;
  if (designs * each <= TRIAL_MS) return { seconds: each / 1000, slowdown: slowdownOf(began, passed) };
  let fastest = Number.POSITIVE_INFINITY;
  let before = passed;
  const enough = (rounds: number) =>
    before.wall - began.wall >= (rounds < ROUNDS ? LONGEST_TRIAL_MS : TRIAL_MS);
  for (let rounds = 0; !enough(rounds) || rounds === 0; rounds++) {
    let after: Moment;
    let passes = 0;
    do {
      evaluate(sample);
      passes++;
      after = now();
    } while (between(before, after) < ROUND_MS);
    fastest = Math.min(fastest, between(before, after) / passes);
    before = after;
  }
  return { seconds: fastest / 1000 / sample.count, slowdown: slowdownOf(began, before) };
}

function slowdownOf(began: Moment, ended: Moment): number {
  const work = between(began, ended);
  // less than a tick of the clock
  return work > 0 ? Math.max(1, (ended.wall - began.wall) / work) : 1;
}

/** The mean of those that fit in the time; null where all of them do with time to spare. */
function timeOneByOne(
  evaluate: (batch: DesignBatch) => RowBatch,
  { count, values }: DesignBatch,
  began: Moment,
  now: () => Moment,
  state: Int32Array,
): Timing | null {
  const width = values.length / count;
  for (let i = 0; i < count; i++) {
    evaluate({ first: i, count: 1, values: values.slice(i * width, (i + 1) * width) });
    Atomics.store(state, TRIAL.tried, i + 1);
    const reached = now();
    if (reached.wall - began.wall >= LONGEST_TRIAL_MS) {
      return { seconds: between(began, reached) / 1000 / (i + 1), slowdown: slowdownOf(began, reached) };
    }
  }
  return null;
}
