import { paretoFront } from '../../src/front/pareto-front.ts';
import { hypervolume } from '../../src/math/hypervolume.ts';
import type { DesignBatch } from '../../src/model/rows.ts';
import { type Candidate, candidates, type JudgedRows, type Senses } from '../../src/plan/candidate.ts';

import { runDescent } from '../../src/plan/descent.ts';
import type { Descent, Plan } from '../../src/plan/plan.ts';
import type { Space } from '../../src/plan/space.ts';

interface Runnable {
  readonly done: boolean;
  next(): DesignBatch | null;
  receive(rows: JudgedRows): void;
}

interface Evaluable {
  readonly senses: Senses;
  evaluate(batch: DesignBatch): JudgedRows;
}

interface Descendable extends Evaluable {
  gaps(row: JudgedRows): Float64Array;
}

/** Runs a plan as a pool would, with `ahead` batches in flight at a time; all that was evaluated, in design order. */
export function runPlan(plan: Runnable, problem: Evaluable, ahead = 1): Candidate[] {
  const all: Candidate[] = [];
  const inFlight: DesignBatch[] = [];
  for (;;) {
    while (inFlight.length < ahead) {
      const batch = plan.next();
      if (!batch) break;
      inFlight.push(batch);
    }
    const batch = inFlight.shift();
    if (!batch) break;
    if (batch.first !== all.length) throw new Error(`batch ${batch.first} came where ${all.length} was due`);
    const rows = problem.evaluate(batch);
    all.push(...candidates(rows, problem.senses));
    plan.receive(rows);
  }
  if (!plan.done) throw new Error('the plan is not done and hands out nothing');
  return all;
}

export function frontOf(all: readonly Candidate[]): Candidate[] {
  const feasible = all.filter(({ violation }) => violation === 0);
  if (feasible.length === 0) return [];
  const columns = Array.from(feasible[0]!.costs, (_, o) =>
    Float64Array.from(feasible, ({ costs }) => costs[o]!),
  );
  const rows = paretoFront(
    columns,
    columns.map(() => 'minimise'),
  );
  return Array.from(rows, (row) => feasible[row]!);
}

export function volumeOf(points: readonly ArrayLike<number>[], reference: readonly number[]): number {
  return hypervolume(
    reference.map((_, o) => points.map((point) => point[o]!)),
    reference,
  );
}

/** Mean distance from the points of `to` to the nearest of `from`, each objective scaled to the extent of `to`. */
export function distance(from: readonly ArrayLike<number>[], to: readonly ArrayLike<number>[]): number {
  const scale = Array.from(to[0]!, (_, o) => {
    const values = to.map((point) => point[o]!);
    return 1 / (Math.max(...values) - Math.min(...values));
  });
  let sum = 0;
  for (const point of to) {
    let nearest = Number.POSITIVE_INFINITY;
    for (const other of from) {
      let square = 0;
      for (let o = 0; o < scale.length; o++) square += (scale[o]! * (point[o]! - other[o]!)) ** 2;
      nearest = Math.min(nearest, square);
    }
    sum += Math.sqrt(nearest);
  }
  return sum / to.length;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Runs a plan that descends, each descent as a worker would; up to the descent that finds `enough`. */
export function runSearch(
  plan: Plan,
  problem: Descendable,
  space: Space,
  enough: (candidate: Candidate) => boolean = () => false,
): Candidate[] {
  const all: Candidate[] = [];
  while (!plan.done && !all.some(enough)) {
    const work = plan.next();
    if (!work) throw new Error('the plan is not done and hands out nothing');
    const { rows, report } =
      'from' in work ? descended(work, problem, space) : { rows: problem.evaluate(work) };
    const told = { ...rows, first: all.length };
    all.push(...candidates(told, problem.senses));
    plan.receive(told, report);
  }
  return all;
}

function descended(descent: Descent, problem: Descendable, space: Space) {
  const { senses } = problem;
  const { rows, report } = runDescent(space, senses, descent, problem);
  const count = rows.length;
  const joined: JudgedRows = {
    first: 0,
    count,
    values: Float64Array.from(rows.flatMap((row) => [...row.values])),
    violation: Float64Array.from(rows, (row) => row.violation[0]!),
    objectives: Float64Array.from(senses.flatMap((_, o) => rows.map((row) => row.objectives[o]!))),
  };
  return { rows: joined, report };
}
