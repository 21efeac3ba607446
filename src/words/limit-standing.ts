import { type Columns, createScratch, evaluateProgram, meets } from '../expression/evaluate-program.ts';
import { limitMargin, unitOf } from '../expression/limit-margin.ts';
import type { Limit, Program } from '../model/program.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { measure } from '../text/significant.ts';

/** How one design stands to one limit of its study. */
export interface LimitStanding {
  /** As the study writes it. */
  readonly text: string;
  readonly met: boolean;
  /** What the design has, with its unit; null where that is no single number of the rig's. */
  readonly value: string | null;
  /** What is left, of the larger side of the comparison; below 0 where the limit is not met, NaN where there is no share. */
  readonly margin: number;
  /** The same in words: `49 % left`, `20 % off`; of a bound of 0 there is no share: `limit 0 N/mm`. */
  readonly rest: string;
}

/** Every limit of a study, for a batch of one design. */
export function limitStandings(
  study: Pick<Study, 'limits' | 'derive'>,
  row: Pick<RowBatch, 'count' | 'quantities' | 'derived'>,
  slots: Float64Array,
): LimitStanding[] {
  const columns: Columns = {
    count: 1,
    quantity: (index) => column(row, row.quantities, index),
    derived: (index) => column(row, row.derived, index),
    input: (slot) => Float64Array.of(slots[slot]!),
  };
  const scratch = createScratch();
  const side = (program: Program): number => {
    const out = new Float64Array(1);
    evaluateProgram(program, columns, out, scratch);
    return out[0]!;
  };
  return study.limits.map((limit) => {
    const { text, comparison, left, right } = limit;
    const a = side(left);
    const b = side(right);
    const met = meets(comparison, a, b);
    const margin = limitMargin(limit, study.derive, a, b);
    const own = unitOf(left, study.derive);
    return {
      text,
      met,
      value: own === null ? null : measure(a, own),
      margin: met ? margin : -margin,
      rest: restWords(limit, study.derive, margin, met, Number.isNaN(a) || Number.isNaN(b)),
    };
  });
}

function restWords(
  limit: Limit,
  derive: Study['derive'],
  margin: number,
  met: boolean,
  isEmpty: boolean,
): string {
  if (isEmpty) return 'nothing to compare';
  if (!Number.isNaN(margin)) return `${Math.round(100 * Math.abs(margin))} % ${met ? 'left' : 'off'}`;
  const unit = unitOf(limit.left, derive) ?? unitOf(limit.right, derive);
  return `limit 0 ${unit?.symbol ?? ''}`.trimEnd();
}
