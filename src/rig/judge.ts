import { type Columns, createScratch, evaluateProgram, meets } from '../expression/evaluate-program.ts';
import { limitExcess, limitGap } from '../expression/limit-excess.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Program } from '../model/program.ts';
import { column, RESTING_EXCESS, type RowBatch } from '../model/rows.ts';
import { isEvaluated, STATUS } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { createDesignReader } from './design.ts';

/** What of a study judges. */
type Judging = Pick<Task, 'derive' | 'limits' | 'objectives'>;

/** What a study's expressions make of evaluated designs. */
export type Judged = Pick<RowBatch, 'feasible' | 'unmet' | 'violation' | 'derived' | 'objectives'>;

export interface Judge {
  /** Slots of the inputs that the expressions name. */
  readonly named: readonly number[];
  /**
   * `inputs`: a column each for the slots named; `statistics`: columns as `derived`, of which those of statistics are
   * taken over. The arrays returned are fresh.
   */
  judge(
    rows: Pick<RowBatch, 'first' | 'count' | 'status' | 'quantities'>,
    inputs: ReadonlyMap<number, Float64Array>,
    statistics: Float64Array | null,
  ): Judged;
}

export function createJudge(task: Judging): Judge {
  const scratch = createScratch();
  return {
    named: namedSlots(task),
    judge(rows, inputs, statistics) {
      const { count, status, quantities } = rows;
      const derived = new Float64Array(task.derive.length * count);
      const columns: Columns = {
        count,
        quantity: (index) => column(rows, quantities, index),
        input: (slot) => inputs.get(slot)!,
        derived: (index) => column(rows, derived, index),
      };
      const run = (program: Program, out: Float64Array) => evaluateProgram(program, columns, out, scratch);

      task.derive.forEach(({ program, statistic }, i) => {
        const cells = column(rows, derived, i);
        if (statistic === undefined) run(program, cells);
        else if (statistics === null) cells.fill(Number.NaN);
        else cells.set(column(rows, statistics, i));
      });
      const objectives = new Float64Array(task.objectives.length * count);
      task.objectives.forEach(({ program }, i) => {
        run(program, column(rows, objectives, i));
      });
      return { ...verdict(task, count, status, run), derived, objectives };
    },
  };
}

/** Judges rows anew, by other limits and objectives than those they were evaluated for. */
export function createRejudge(task: Task): (rows: RowBatch) => RowBatch {
  const reader = createDesignReader(task);
  const { named, judge } = createJudge(task);
  const width = task.vary.length;
  return (rows) => {
    const { count, values } = rows;
    const inputs = new Map(named.map((slot) => [slot, new Float64Array(count)]));
    for (let i = 0; named.length > 0 && i < count; i++) {
      reader.read(values, i * width);
      for (const [slot, cells] of inputs) cells[i] = reader.slots[slot]!;
    }
    return { ...rows, ...judge(rows, inputs, rows.derived) };
  };
}

/**
 * Of rows evaluated one at a time: how far each is on the wrong side of each limit, as a share of its bound
 * (`limitGap`); -Infinity for a limit that does not apply.
 */
export function createGaps(task: Task): (row: RowBatch) => Float64Array {
  const reader = createDesignReader(task);
  const scratch = createScratch();
  const inputs = new Map(namedSlots(task).map((slot) => [slot, new Float64Array(1)]));
  const left = new Float64Array(1);
  const right = new Float64Array(1);
  return (row) => {
    reader.read(row.values, 0);
    for (const [slot, cells] of inputs) cells[0] = reader.slots[slot]!;
    const columns: Columns = {
      count: 1,
      quantity: (index) => column(row, row.quantities, index),
      input: (slot) => inputs.get(slot)!,
      derived: (index) => column(row, row.derived, index),
    };
    return Float64Array.from(task.limits, (limit) => {
      evaluateProgram(limit.left, columns, left, scratch);
      evaluateProgram(limit.right, columns, right, scratch);
      if (limit.implied && Number.isNaN(left[0]!)) return Number.NEGATIVE_INFINITY;
      return limitGap(left[0]!, limit.comparison, right[0]!);
    });
  };
}

/** Which inputs a study's expressions name. */
function namedSlots(task: Judging): number[] {
  const named = new Set<number>();
  const programs = [
    ...task.derive.map((derived) => derived.program),
    ...task.limits.flatMap((limit) => [limit.left, limit.right]),
    ...task.objectives.map((objective) => objective.program),
  ];
  for (const instruction of programs.flat()) {
    if (instruction.op === 'input') named.add(instruction.slot);
  }
  return INPUTS.filter((input) => named.has(input.slot)).map((input) => input.slot);
}

/**
 * Feasible: the design could be evaluated and meets every limit. Limits of impossible and failed designs have
 * nothing to be judged on; their bits stay clear, so that counting bits shows what a limit alone shuts out.
 */
function verdict(
  task: Judging,
  count: number,
  status: Uint8Array,
  run: (program: Program, out: Float64Array) => void,
): Pick<RowBatch, 'feasible' | 'unmet' | 'violation'> {
  const feasible = new Uint8Array(count);
  const unmet = new Uint32Array(count);
  const violation = new Float64Array(count);
  const left = new Float64Array(count);
  const right = new Float64Array(count);
  const evaluated = (i: number) => isEvaluated(status[i]!);
  task.limits.forEach((limit, l) => {
    run(limit.left, left);
    run(limit.right, right);
    const bit = 1 << Math.min(l, 31);
    for (let i = 0; i < count; i++) {
      if (!evaluated(i) || meets(limit.comparison, left[i]!, right[i]!)) continue;
      if (limit.implied && Number.isNaN(left[i]!)) continue;
      unmet[i]! |= bit;
      violation[i]! += limitExcess(left[i]!, right[i]!);
    }
  });
  for (let i = 0; i < count; i++) {
    feasible[i] = evaluated(i) && unmet[i] === 0 ? 1 : 0;
    if (!evaluated(i)) violation[i] = Number.POSITIVE_INFINITY;
    else if (status[i] === STATUS.rests) violation[i]! += RESTING_EXCESS;
  }
  return { feasible, unmet, violation };
}
