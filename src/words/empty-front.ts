import type { RowBatch } from '../model/rows.ts';
import { REASONS, STATUS, STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { createLimitTally, type LimitTally } from './limit-tally.ts';

/** Why a front is empty, gathered batch by batch in memory that does not grow. */
export interface EmptyFront {
  add(batch: RowBatch): void;
  /** A few lines: which limit shuts most designs out and by how little, what is impossible or rests. */
  words(): string;
}

/** Limits share the 32 bits of RowBatch.unmet: those from this one on share the last bit. */
const LAST_BIT = 31;

export function explainEmptyFront(study: Pick<Study, 'limits' | 'derive'>): EmptyFront {
  const shared = study.limits.length - LAST_BIT;
  const limits = study.limits
    .slice(0, LAST_BIT + 1)
    .map((limit, bit) =>
      bit === LAST_BIT && shared > 1
        ? createLimitTally(study, null, `one of the last ${shared} limits`)
        : createLimitTally(study, limit, limit.text),
    );
  let designs = 0;
  let feasible = 0;
  /** By status, then reason. */
  const barred = new Float64Array(STATUSES.length * REASONS.length);
  let nearest = { design: -1, unmet: 0, misses: Number.POSITIVE_INFINITY };

  return {
    add(batch) {
      designs += batch.count;
      for (let row = 0; row < batch.count; row++) {
        const status = batch.status[row]!;
        const unmet = batch.unmet[row]!;
        feasible += batch.feasible[row]!;
        barred[status * REASONS.length + batch.reason[row]!]!++;
        // A design that cannot be built misses every limit, and no limit is to blame.
        if (unmet === 0 || status >= STATUS.impossible) continue;
        const misses = bitCount(unmet);
        if (misses < nearest.misses) nearest = { design: batch.first + row, unmet, misses };
        for (let bit = 0; bit < limits.length; bit++) {
          if (isSet(unmet, bit)) limits[bit]!.miss(batch, row, misses === 1);
        }
      }
    },
    words() {
      const worst = limits.reduce<LimitTally | null>((a, b) => (b.missed > (a?.missed ?? 0) ? b : a), null);
      const lines = [headline(designs, feasible)];
      if (worst) lines.push(worst.words(designs));
      if (limits.length > 1 && nearest.design >= 0) {
        const missed = limits.filter((_, bit) => isSet(nearest.unmet, bit)).map(({ text }) => `'${text}'`);
        const only = missed.length < limits.length ? 'only ' : '';
        lines.push(
          `Nearest to meeting all is design ${nearest.design}: it misses ${only}${missed.join(', ')}.`,
        );
      }
      return [...lines, ...barredWords(barred)].join('\n');
    },
  };
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

function bitCount(bits: number): number {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count++;
  return count;
}
