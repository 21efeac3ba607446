import { quantileOfSorted } from '../math/quantile.ts';
import type { Derived, Limit, Program } from '../model/program.ts';
import { isEvaluated, STATUS } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { createJudge } from './judge.ts';
import { readQuantities } from './needed-laws.ts';
import { createTries, TRIES } from './tries.ts';

export interface Spread {
  /**
   * Writes the statistics of the design with these inputs (SI, with their defaults) to row `row` of columns of
   * `count` rows, one a derived quantity; empty where the design itself has no answer.
   */
  fill(slots: Float64Array, status: number, columns: Float64Array, row: number, count: number): void;
}

/**
 * What becomes of a design within the study's tolerances: statistics over the rigs that it is tried as. Null for a study
 * without tolerances.
 */
export function createSpread(task: Task): Spread | null {
  const { tolerance = [], derive } = task;
  if (tolerance.length === 0) return null;
  const limits = limitsOfEach(task);
  const { named, judge } = createJudge({ ...task, limits, objectives: [] });
  const read = readQuantities(
    limits.flatMap(({ left, right }) => [left, right]),
    derive,
  );
  for (const { statistic } of derive) if (statistic?.kind === 'quantile') read.add(statistic.quantity);
  const tries = createTries(task, tolerance, named, read);
  const { status: triedStatus, quantities } = tries.rows;
  const sorted = new Float64Array(TRIES);

  return {
    fill(slots, status, columns, row, count) {
      const cell = (d: number, value: number) => {
        columns[d * count + row] = value;
      };
      if (!isEvaluated(status)) {
        for (let d = 0; d < derive.length; d++) cell(d, Number.NaN);
        return;
      }
      tries.run(slots);
      const { feasible } = judge(tries.rows, tries.inputs, null);
      let sortedQuantity = -1;
      derive.forEach(({ statistic }, d) => {
        if (statistic?.kind === 'quantile') {
          // both quantiles of a quantity follow one another
          if (statistic.quantity !== sortedQuantity) {
            sortedQuantity = statistic.quantity;
            sorted.set(quantities.subarray(sortedQuantity * TRIES, (sortedQuantity + 1) * TRIES));
            sorted.sort();
          }
          cell(d, quantileOfSorted(sorted, statistic.fraction));
        } else if (statistic?.kind === 'probability') {
          const good = (k: number) =>
            statistic.of === 'limits' ? feasible[k] === 1 : triedStatus[k] === STATUS.lifts;
          cell(d, fractionOfTries(good));
        }
      });
    },
  };
}

/** Of the rigs that a design is tried as. */
export function fractionOfTries(good: (rig: number) => boolean): number {
  let times = 0;
  for (let k = 0; k < TRIES; k++) if (good(k)) times++;
  return times / TRIES;
}

/** Limits that each rig can be held against; one with a statistic is about all of them. */
export function limitsOfEach({ limits, derive }: Pick<Task, 'limits' | 'derive'>): readonly Limit[] {
  return limits.filter(({ left, right }) => !isStatistical([...left, ...right], derive));
}

/** Whether a program uses a statistic, perhaps through a derived quantity. */
export function isStatistical(program: Program, derive: readonly Derived[]): boolean {
  return program.some((instruction) => {
    if (instruction.op !== 'derived') return false;
    const { statistic, program: own } = derive[instruction.index]!;
    return statistic !== undefined || isStatistical(own, derive);
  });
}
