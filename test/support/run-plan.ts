import { hypervolume } from '../../src/math/hypervolume.ts';
import type { DesignBatch } from '../../src/model/rows.ts';
import {
  type Candidate,
  candidates,
  dominates,
  type JudgedRows,
  type Senses,
} from '../../src/plan/candidate.ts';

interface Runnable {
  readonly done: boolean;
  next(): DesignBatch | null;
  tell(rows: JudgedRows): void;
}

interface Evaluable {
  readonly senses: Senses;
  evaluate(batch: DesignBatch): JudgedRows;
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
    plan.tell(rows);
  }
  if (!plan.done) throw new Error('the plan is not done and hands out nothing');
  return all;
}

export function frontOf(all: readonly Candidate[]): Candidate[] {
  // one pass thins out most, so that the second is cheap
  const kept: Candidate[] = [];
  for (const one of all) {
    if (one.violation > 0 || kept.some((other) => dominates(other, one))) continue;
    for (let i = kept.length - 1; i >= 0; i--) if (dominates(one, kept[i]!)) kept.splice(i, 1);
    kept.push(one);
  }
  return kept;
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
  const apart = (a: ArrayLike<number>, b: ArrayLike<number>) =>
    Math.hypot(...scale.map((s, o) => s * (a[o]! - b[o]!)));
  return (
    to.reduce((sum, point) => sum + Math.min(...from.map((other) => apart(point, other))), 0) / to.length
  );
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
