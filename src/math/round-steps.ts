/** Steps that people count in, times a power of ten. */
const STEPS = [1, 2, 2.5, 5, 10, 20];

/**
 * Round numbers from `low` (rounded down to a step) to `high`, which ends the list even where it is not round: at most
 * `most` of them, 0 left out. For 0 <= low < high, both finite, and most of 3 or more.
 */
export function roundSteps(low: number, high: number, most: number): number[] {
  const decade = 10 ** Math.floor(Math.log10((high - low) / most));
  const step = STEPS.map((factor) => factor * decade).find((each) => count(low, high, each) <= most)!;
  const first = Math.floor(low / step + ROUNDING);
  const last = Math.ceil(high / step - ROUNDING) - 1;
  const steps: number[] = [];
  for (let n = Math.max(1, first); n <= last; n++) steps.push(Number((n * step).toPrecision(12)));
  // a round number right below the end adds nothing to the end
  if (steps.length > 1 && high - steps.at(-1)! < CLOSE * step) steps.pop();
  return [...steps, high];
}

const ROUNDING = 1e-9;
const CLOSE = 0.15;

function count(low: number, high: number, step: number): number {
  return Math.ceil(high / step - ROUNDING) - Math.max(1, Math.floor(low / step + ROUNDING)) + 1;
}
