import { limitExcess } from '../math/limit-excess.ts';
import { type Columns, createScratch, evaluateProgram, meets } from '../math/program.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { column, type DesignBatch, type RowBatch } from '../model/rows.ts';
import { STATUS } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { createDesignReader } from './design.ts';
import { createLaws } from './laws.ts';

/**
 * Designs in, rows out. The evaluator keeps its working arrays from batch to batch; the arrays of a returned
 * batch are its own, so that they can be handed to another thread.
 */
export function createEvaluator(task: Task): (batch: DesignBatch) => RowBatch {
  const reader = createDesignReader(task);
  const laws = createLaws(task.rig.plateLayers, task.rig.windings);
  const scratch = createScratch();
  const width = task.vary.length;
  const recorded = recordedSlots(task);

  return (batch) => {
    const { first, count, values } = batch;
    const status = new Uint8Array(count);
    const reason = new Uint8Array(count);
    const quantities = new Float64Array(QUANTITIES.length * count);
    const inputs = new Map(recorded.map((slot) => [slot, new Float64Array(count)]));

    for (let i = 0; i < count; i++) {
      reader.read(values, i * width);
      laws.ask(reader.slots);
      status[i] = laws.status;
      reason[i] = laws.reason;
      for (let q = 0; q < QUANTITIES.length; q++) quantities[q * count + i] = laws.results[q]!;
      for (const [slot, cells] of inputs) cells[i] = reader.slots[slot]!;
    }

    const derived = new Float64Array(task.derive.length * count);
    const columns: Columns = {
      count,
      quantity: (index) => column(batch, quantities, index),
      input: (slot) => inputs.get(slot)!,
      derived: (index) => column(batch, derived, index),
    };
    const run = (program: Program, out: Float64Array) => evaluateProgram(program, columns, out, scratch);

    task.derive.forEach(({ program }, i) => {
      run(program, column(batch, derived, i));
    });
    const objectives = new Float64Array(task.objectives.length * count);
    task.objectives.forEach(({ program }, i) => {
      run(program, column(batch, objectives, i));
    });
    const verdict = judge(task, count, status, run);
    return { first, count, values, status, reason, ...verdict, quantities, derived, objectives };
  };
}

/** Which inputs the study's expressions name. */
function recordedSlots(task: Task): number[] {
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
 * nothing to be judged on; their bits stay clear, so that counting bits tells what a limit alone shuts out.
 */
function judge(
  task: Task,
  count: number,
  status: Uint8Array,
  run: (program: Program, out: Float64Array) => void,
): Pick<RowBatch, 'feasible' | 'unmet' | 'violation'> {
  const feasible = new Uint8Array(count);
  const unmet = new Uint32Array(count);
  const violation = new Float64Array(count);
  const left = new Float64Array(count);
  const right = new Float64Array(count);
  const evaluated = (i: number) => status[i] !== STATUS.impossible && status[i] !== STATUS.failed;
  task.limits.forEach((limit, l) => {
    run(limit.left, left);
    run(limit.right, right);
    const bit = 1 << Math.min(l, 31);
    for (let i = 0; i < count; i++) {
      if (!evaluated(i) || meets(limit.comparison, left[i]!, right[i]!)) continue;
      unmet[i]! |= bit;
      violation[i]! += limitExcess(left[i]!, right[i]!);
    }
  });
  for (let i = 0; i < count; i++) {
    feasible[i] = evaluated(i) && unmet[i] === 0 ? 1 : 0;
    if (!evaluated(i)) violation[i] = Number.POSITIVE_INFINITY;
  }
  return { feasible, unmet, violation };
}
