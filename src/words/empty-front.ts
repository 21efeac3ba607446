import type { RowBatch } from '../model/rows.ts';
import { isEvaluated, REASONS, STATUS, STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import type { LimitMisses } from '../survey/limit-tally.ts';
import { measure } from '../text/significant.ts';

/** Why a front is empty, gathered batch by batch in memory that does not grow. */
export interface EmptyFront {
  add(batch: RowBatch): void;
  /** A few lines: which limit shuts most designs out and by how little, what is impossible or rests. */
  words(limits: readonly LimitMisses[]): string;
}

export function explainEmptyFront(study: Pick<Study, 'objectives'>): EmptyFront {
  let designs = 0;
  let feasible = 0;
  /** By status, then reason. */
  const barred = new Float64Array(STATUSES.length * REASONS.length);
  let nearest: Near = FAR;

  return {
    add(batch) {
      designs += batch.count;
      for (let row = 0; row < batch.count; row++) {
        const status = batch.status[row]!;
        feasible += batch.feasible[row]!;
        barred[status * REASONS.length + batch.reason[row]!]!++;
        // A design that cannot be built misses every limit, and no limit is to blame.
        if (batch.unmet[row] === 0 || !isEvaluated(status)) continue;
        const near = nearOf(study, batch, row);
        if (isNearer(near, nearest)) nearest = near;
      }
    },
    words(limits) {
      const worst = limits.reduce<LimitMisses | null>((a, b) => (b.missed > (a?.missed ?? 0) ? b : a), null);
      const lines = [headline(designs, feasible)];
      if (worst) lines.push(worstWords(worst, designs));
      if (limits.length > 1 && nearest.design >= 0) {
        const missed = limits.filter((_, bit) => isSet(nearest.unmet, bit)).map(({ text }) => `'${text}'`);
        const only = missed.length < limits.length ? 'only ' : '';
        const rests = nearest.rests ? ', and rests on the plate' : '';
        lines.push(
          `Nearest to meeting all is design ${nearest.design}: it misses ${only}${missed.join(', ')}${rests}.`,
        );
      }
      return [...lines, ...barredWords(barred)].join('\n');
    },
  };
}

/** How near a design is to meeting all limits. */
interface Near {
  readonly design: number;
  readonly unmet: number;
  readonly rests: boolean;
  readonly violation: number;
  /** One an objective, less is better. */
  readonly costs: readonly number[];
}

const FAR: Near = { design: -1, unmet: 0, rests: true, violation: Number.POSITIVE_INFINITY, costs: [] };

function nearOf({ objectives }: Pick<Study, 'objectives'>, batch: RowBatch, row: number): Near {
  const { first, count, unmet, status, violation } = batch;
  return {
    design: first + row,
    unmet: unmet[row]!,
    rests: status[row] === STATUS.rests,
    violation: violation[row]!,
    costs: objectives.map(({ sense }, o) => {
      const value = batch.objectives[o * count + row]!;
      if (Number.isNaN(value)) return Number.POSITIVE_INFINITY;
      return sense === 'maximise' ? -value : value;
    }),
  };
}

/** A resting design never before one that floats; then the least violation; then the objectives in order. */
function isNearer(a: Near, b: Near): boolean {
  if (b.design < 0) return true;
  if (a.rests !== b.rests) return b.rests;
  if (a.violation !== b.violation) return a.violation < b.violation;
  const differing = a.costs.findIndex((cost, o) => cost !== b.costs[o]);
  return differing >= 0 && a.costs[differing]! < b.costs[differing]!;
}

function worstWords({ text, missed, alone, nearest }: LimitMisses, designs: number): string {
  const only = alone === 0 ? '' : `, ${alone} of them no other`;
  const near =
    nearest === null
      ? ''
      : ` The nearest, design ${nearest.design}, has ${nearest.label} ${measure(nearest.value, nearest.unit)}.`;
  return `The limit '${text}' shuts most designs out: ${missed} of ${designs} miss it${only}.${near}`;
}

function headline(designs: number, feasible: number): string {
  return feasible === 0
    ? `The front is empty: no design of ${designs} meets every limit.`
    : `The front is empty: of ${designs} designs ${feasible} meet every limit, but in each an objective has no value.`;
}

/** What kept designs from floating, a line a status, the commonest reason first. */
function barredWords(barred: Float64Array): string[] {
  const verbs = { impossible: 'Impossible', failed: 'Failed', rests: 'Resting on the plate' } as const;
  return (['impossible', 'failed', 'rests'] as const).flatMap((status) => {
    const start = STATUS[status] * REASONS.length;
    const counts = barred.subarray(start, start + REASONS.length);
    const reasons = REASONS.map(({ text }, code) => ({ text, count: counts[code]! }))
      .filter(({ count }) => count > 0)
      .sort((a, b) => b.count - a.count)
      .map(({ text, count }) => (text === '' ? `${count}` : `${count} (${text})`));
    return reasons.length === 0 ? [] : [`${verbs[status]}: ${reasons.join(', ')}.`];
  });
}

function isSet(bits: number, bit: number): boolean {
  return ((bits >>> bit) & 1) === 1;
}
