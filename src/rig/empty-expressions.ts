import { type Columns, createScratch, evaluateProgram } from '../expression/evaluate-program.ts';
import { SLOT } from '../model/inputs.ts';
import type { Derived, Program } from '../model/program.ts';
import { Q, QUANTITIES } from '../model/quantities.ts';
import { isEvaluated } from '../model/status.ts';
import type { Task, Varied } from '../model/study.ts';
import { createDesignReader } from './design.ts';
import { createLaws } from './laws.ts';
import { createDriver, type DrivenPoint } from './lift-curve.ts';
import { neededLaws, readQuantities } from './needed-laws.ts';
import { isStatistical } from './spread.ts';

/** A limit or an objective that no design can meet or be judged by. */
export interface EmptyExpression {
  readonly kind: 'limits' | 'objectives';
  readonly index: number;
  /** A quantity in it that is empty throughout; null where only their combination is. */
  readonly quantity: string | null;
}

/** Designs probed at most; each level of a varied choice is among them where there are no more. */
const PROBES = 6;

/**
 * Which limits and objectives are empty in every probed design: for want of an input (a fuse margin without a fuse), not of
 * current. So each design is probed at its own drive, far below it, and floating; it goes on until every expression has had a
 * value. Empty where no probed design can be evaluated; expressions over statistics are left out.
 */
export function emptyExpressions(task: Task): EmptyExpression[] {
  const { rig, vary, limits, objectives, derive, requested } = task;
  const expressions = [
    ...limits.flatMap(({ left, right, implied }, index) =>
      implied ? [] : [{ kind: 'limits' as const, index, programs: [left, right] }],
    ),
    ...objectives.map(({ program }, index) => ({ kind: 'objectives' as const, index, programs: [program] })),
  ].filter(({ programs }) => !programs.some((program) => isStatistical(program, derive)));
  let empty = expressions.flatMap(({ kind, index, programs }) =>
    programs.map((program) => ({ kind, index, program })),
  );
  const programs = expressions.flatMap((each) => each.programs);
  const needed = neededLaws(readQuantities(programs, derive));
  const laws = createLaws(rig.plateLayers, rig.windings, requested, needed);
  const known = new Set<number>();
  const reader = createDesignReader(task);
  const scratch = createScratch();
  const cell = new Float64Array(1);
  let answered = false;

  const see = (point: DrivenPoint): void => {
    if (!isEvaluated(point.status)) return;
    answered = true;
    for (const { index } of QUANTITIES) if (!Number.isNaN(point.results[index]!)) known.add(index);
    const derived = new Float64Array(derive.length).fill(Number.NaN);
    const columns: Columns = {
      count: 1,
      quantity: (index) => point.results.subarray(index, index + 1),
      input: (slot) => Float64Array.of(reader.slots[slot]!),
      derived: (index) => derived.subarray(index, index + 1),
    };
    derive.forEach(({ program, statistic }, d) => {
      if (statistic === undefined) evaluateProgram(program, columns, derived.subarray(d, d + 1), scratch);
    });
    empty = empty.filter(({ program }) => {
      evaluateProgram(program, columns, cell, scratch);
      return Number.isNaN(cell[0]!);
    });
  };

  const probes = Math.min(PROBES, Math.max(2, ...vary.map(({ levels }) => levels.length)));
  for (let probe = 0; probe < probes && empty.length > 0; probe++) {
    reader.read(
      Float64Array.from(vary, (varied) => levelOf(varied, probe, probes)),
      0,
    );
    const { slots } = reader;
    const drive = createDriver(slots, laws);
    const own = drive(slots[SLOT.driveCurrent]!, slots[SLOT.driveVoltage]!);
    see(own);
    if (empty.length === 0) break;
    const { current } = own;
    const liftoff = own.results[Q.liftoff_current]!;
    const others = [0.1 * current, 1.2 * liftoff].filter(
      (each) => each > 0 && each < Number.POSITIVE_INFINITY,
    );
    for (const each of others) see(drive(each, Number.NaN));
  }
  if (!answered) return [];
  return empty
    .filter(({ kind, index }, i) => empty.findIndex((e) => e.kind === kind && e.index === index) === i)
    .map(({ kind, index, program }) => ({ kind, index, quantity: firstUnknown(program, derive, known) }));
}

/** Numbers spread over their levels, choices in turn; what lies between two ends takes the ends. */
function levelOf(varied: Varied, probe: number, probes: number): number {
  const { levels } = varied;
  if (varied.kind === 'choice') return probe % levels.length;
  const at = probes === 1 ? 0 : Math.round((probe * (levels.length - 1)) / (probes - 1));
  return varied.levels[at]!;
}

/** By name, through derived quantities. */
function firstUnknown(
  program: Program,
  derive: readonly Derived[],
  known: ReadonlySet<number>,
): string | null {
  for (const instruction of program) {
    if (instruction.op === 'quantity' && !known.has(instruction.index))
      return QUANTITIES[instruction.index]!.name;
    if (instruction.op !== 'derived') continue;
    const inner = firstUnknown(derive[instruction.index]!.program, derive, known);
    if (inner !== null) return inner;
  }
  return null;
}
