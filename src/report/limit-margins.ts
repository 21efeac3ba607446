import { type Columns, createScratch, evaluateProgram } from '../expression/evaluate-program.ts';
import { isAgainstZero, limitMargin, unitOf } from '../expression/limit-margin.ts';
import { column } from '../model/rows.ts';
import type { Unit } from '../model/units.ts';
import type { ReportInput } from './report-input.ts';

/** How near a design of the front comes to a limit. */
export interface Margin {
  /** Into the front. */
  readonly row: number;
  /** What is left, of the larger side of the comparison; NaN where the bound is 0. */
  readonly fraction: number;
  /** Likewise, as it is, SI. */
  readonly apart: number;
  /** That it is read in; null where neither side is one number of the rig's. */
  readonly unit: Unit | null;
}

/** Per limit, the design of the front that comes nearest to it; null where none can be compared. */
export function nearestOnFront({ study, front, slotsOf }: ReportInput): (Margin | null)[] {
  const { count } = front;
  const inputs = new Map<number, Float64Array>();
  const columns: Columns = {
    count,
    quantity: (index) => column(front, front.quantities, index),
    derived: (index) => column(front, front.derived, index),
    input(slot) {
      const known = inputs.get(slot) ?? Float64Array.from({ length: count }, (_, row) => slotsOf(row)[slot]!);
      inputs.set(slot, known);
      return known;
    },
  };
  const scratch = createScratch();
  return study.limits.map((limit) => {
    const left = new Float64Array(count);
    const right = new Float64Array(count);
    evaluateProgram(limit.left, columns, left, scratch);
    evaluateProgram(limit.right, columns, right, scratch);
    const unit = unitOf(limit.left, study.derive) ?? unitOf(limit.right, study.derive);
    const ofZero = isAgainstZero(limit, study.derive);
    let nearest: Margin | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (let row = 0; row < count; row++) {
      const fraction = limitMargin(limit, study.derive, left[row]!, right[row]!);
      const apart = Math.abs(left[row]! - right[row]!);
      const distance = ofZero ? apart : fraction;
      if (!(distance < least)) continue;
      least = distance;
      nearest = { row, fraction, apart, unit };
    }
    return nearest;
  });
}
