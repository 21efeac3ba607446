import { normalQuantile } from '../math/normal-quantile.ts';
import { quantile } from '../math/quantile.ts';
import { createRandom } from '../math/random.ts';
import { createSobol } from '../math/sobol.ts';
import type { Derived, Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { Task, Tolerance } from '../model/study.ts';
import { createJudge } from './judge.ts';
import { createLaws } from './laws.ts';

/** Rigs that each design is tried as: a power of two, for which Sobol' points are even. */
export const TRIES = 256;
/** The same rigs for every design, so that designs differ by what they are and not by luck. */
const SEED = 1;
/** Sobol' points are multiples of 2^-32, the first may be 0, which no normal variate has. */
const LOWEST = 2 ** -33;

export interface Spread {
  /**
   * Writes the statistics of the design with these inputs (SI, with their defaults) to row `row` of columns of
   * `count` rows, one a derived quantity; empty where the design itself has no answer.
   */
  fill(slots: Float64Array, status: number, columns: Float64Array, row: number, count: number): void;
}

/**
 * What becomes of a design within the study's tolerances: it is tried as rigs whose inputs are spread about its own by
 * scrambled Sobol' points. Null for a study without tolerances.
 */
export function createSpread(task: Task): Spread | null {
  const { tolerance = [], rig, derive } = task;
  if (tolerance.length === 0) return null;
  const limits = task.limits.filter(({ left, right }) => !isStatistical([...left, ...right], derive));
  const { named, judge } = createJudge({ ...task, limits, objectives: [] });
  const laws = createLaws(rig.plateLayers, rig.windings);
  const points = samplePoints(tolerance);
  const tried = {
    first: 0,
    count: TRIES,
    status: new Uint8Array(TRIES),
    quantities: new Float64Array(QUANTITIES.length * TRIES),
  };
  const inputs = new Map(named.map((slot) => [slot, new Float64Array(TRIES)]));
  const built = new Float64Array(task.rig.slots.length);

  return {
    fill(slots, status, columns, row, count) {
      const cell = (d: number, value: number) => {
        columns[d * count + row] = value;
      };
      if (status === STATUS.impossible || status === STATUS.failed) {
        for (let d = 0; d < derive.length; d++) cell(d, Number.NaN);
        return;
      }
      for (let k = 0; k < TRIES; k++) {
        built.set(slots);
        tolerance.forEach((each, t) => {
          built[each.slot] = off(slots[each.slot]!, each, points[k * tolerance.length + t]!);
        });
        laws.ask(built);
        tried.status[k] = laws.status;
        for (let q = 0; q < QUANTITIES.length; q++) tried.quantities[q * TRIES + k] = laws.results[q]!;
        for (const [slot, cells] of inputs) cells[k] = built[slot]!;
      }
      const { feasible } = judge(tried, inputs, null);
      derive.forEach(({ statistic }, d) => {
        if (statistic?.kind === 'quantile') {
          const at = statistic.quantity * TRIES;
          cell(d, quantile(tried.quantities.slice(at, at + TRIES), statistic.share));
        } else if (statistic?.kind === 'chance') {
          const good = (k: number) =>
            statistic.of === 'limits' ? feasible[k] === 1 : tried.status[k] === STATUS.lifts;
          let times = 0;
          for (let k = 0; k < TRIES; k++) if (good(k)) times++;
          cell(d, times / TRIES);
        }
      });
    },
  };
}

/** Deviations in units of each tolerance's size, point after point. */
function samplePoints(tolerance: readonly Tolerance[]): Float64Array {
  const sobol = createSobol(tolerance.length, createRandom(SEED));
  const at = new Float64Array(tolerance.length);
  const points = new Float64Array(TRIES * tolerance.length);
  for (let k = 0; k < TRIES; k++) {
    sobol.next(at);
    tolerance.forEach(({ spread }, t) => {
      points[k * tolerance.length + t] =
        spread === 'normal' ? normalQuantile(Math.max(at[t]!, LOWEST)) : 2 * at[t]! - 1;
    });
  }
  return points;
}

function off(value: number, { size, relative, integer, minimum, maximum }: Tolerance, by: number): number {
  const moved = value + by * size * (relative ? value : 1);
  return Math.min(Math.max(integer ? Math.round(moved) : moved, minimum), maximum);
}

/** Whether a program asks for a statistic, perhaps through a derived quantity: such a limit is about all the rigs. */
function isStatistical(program: Program, derive: readonly Derived[]): boolean {
  return program.some((instruction) => {
    if (instruction.op !== 'derived') return false;
    const { statistic, program: own } = derive[instruction.index]!;
    return statistic !== undefined || isStatistical(own, derive);
  });
}
