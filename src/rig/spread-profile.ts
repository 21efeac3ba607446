import { type Columns, createScratch, evaluateProgram } from '../expression/evaluate-program.ts';
import { quantile } from '../math/quantile.ts';
import { varianceShares } from '../math/variance-shares.ts';
import type { Program } from '../model/program.ts';
import { column, type RowBatch } from '../model/rows.ts';
import { isEvaluated, STATUS } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { createJudge } from './judge.ts';
import { createLaws } from './laws.ts';
import { readQuantities } from './needed-laws.ts';
import { fractionOfTries, limitsOfEach } from './spread.ts';
import { createTries, TRIES } from './tries.ts';

/** How one design spreads within the study's tolerances. */
export interface SpreadProfile {
  /** Rigs that it was tried as. */
  readonly rigs: number;
  readonly probabilityLifts: number;
  /** That all limits hold which name no statistic; NaN for a study without such limits. */
  readonly probabilityLimits: number;
  /** In the order of the programs given. */
  readonly quantities: readonly QuantitySpread[];
}

/** SI. */
export interface QuantitySpread {
  /** Of the design as drawn. */
  readonly own: number;
  /** NaN where one of the rigs has no answer. */
  readonly p05: number;
  readonly median: number;
  readonly p95: number;
  /** Part of the variance that goes in proportion with the tolerances, 0 to 1; NaN where nothing varies. */
  readonly explained: number;
  /** A standardised slope a tolerance, in the study's order; their squares are shares of the variance. */
  readonly slopes: Float64Array;
}

/**
 * Finds for single designs how these programs spread and which tolerance makes which part of it; null for a study without
 * tolerances. The rigs are those that the statistics of a run are made of (`rig/spread.ts`).
 * @returns from a design's inputs, SI with their defaults; null where it has no answer
 */
export function createSpreadProfiler(
  task: Task,
  programs: readonly Program[],
): ((slots: Float64Array) => SpreadProfile | null) | null {
  const { tolerance = [], rig } = task;
  if (tolerance.length === 0) return null;
  const limits = limitsOfEach(task);
  const { named, judge } = createJudge({ derive: task.derive, limits, objectives: [] });
  const used = programs.flat().flatMap((each) => (each.op === 'input' ? [each.slot] : []));
  const kept = [...new Set([...named, ...used, ...tolerance.map(({ slot }) => slot)])];
  const read = readQuantities(
    [...programs, ...limits.flatMap(({ left, right }) => [left, right])],
    task.derive,
  );
  const tries = createTries(task, tolerance, kept, read);
  const laws = createLaws(rig.plateLayers, rig.windings, task.requested);
  const scratch = createScratch();

  type Rows = Pick<RowBatch, 'first' | 'count' | 'status' | 'quantities'>;
  const evaluate = (rows: Rows, inputs: ReadonlyMap<number, Float64Array>) => {
    const { derived, feasible } = judge(rows, inputs, null);
    const columns: Columns = {
      count: rows.count,
      quantity: (index) => column(rows, rows.quantities, index),
      input: (slot) => inputs.get(slot)!,
      derived: (index) => column({ count: rows.count }, derived, index),
    };
    const values = programs.map((program) => {
      const out = new Float64Array(rows.count);
      evaluateProgram(program, columns, out, scratch);
      return out;
    });
    return { values, feasible };
  };

  return (slots) => {
    laws.evaluate(slots);
    if (!isEvaluated(laws.status)) return null;
    const drawn = {
      first: 0,
      count: 1,
      status: Uint8Array.of(laws.status),
      quantities: laws.results.slice(),
    };
    const own = evaluate(drawn, new Map(kept.map((slot) => [slot, Float64Array.of(slots[slot]!)])));
    tries.run(slots);
    const tried = evaluate(tries.rows, tries.inputs);
    const built = tolerance.map(({ slot }) => tries.inputs.get(slot)!);
    return {
      rigs: TRIES,
      probabilityLifts: fractionOfTries((k) => tries.rows.status[k] === STATUS.lifts),
      probabilityLimits: limits.length === 0 ? Number.NaN : fractionOfTries((k) => tried.feasible[k] === 1),
      quantities: tried.values.map((values, p): QuantitySpread => {
        const shares = varianceShares(built, values);
        const at = (fraction: number) => quantile(values.slice(), fraction);
        return {
          own: own.values[p]![0]!,
          p05: at(0.05),
          median: at(0.5),
          p95: at(0.95),
          explained: shares?.explained ?? Number.NaN,
          slopes: shares?.slopes ?? new Float64Array(tolerance.length),
        };
      }),
    };
  };
}

/**
 * From here on shares of a variance are given: what is left over then cannot turn their order in a way that matters to a
 * builder (a judgement; documentation of sensitivity libraries warns below 0.7).
 */
const EXPLAINED = 0.9;

/** Shares of the variance, an entry a tolerance; null where slopes explain too little of it, or nothing varies. */
export function varianceSharesOf({ explained, slopes }: QuantitySpread): readonly number[] | null {
  return explained >= EXPLAINED ? Array.from(slopes, (slope) => slope * slope) : null;
}

/** Whether the rigs differ in it at all. */
export function varies({ p05, p95 }: QuantitySpread): boolean {
  return p05 !== p95 && !Number.isNaN(p05);
}
