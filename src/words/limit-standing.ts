import { type Columns, createScratch, evaluateProgram, meets } from '../expression/evaluate-program.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { toUnit, UNITS, type Unit } from '../model/units.ts';
import { measure } from '../text/significant.ts';

/** How one design stands to one limit of its study. */
export interface LimitStanding {
  /** As the study writes it. */
  readonly text: string;
  readonly met: boolean;
  /** What the design has, with its unit; null where that is no single number of the rig's. */
  readonly value: string | null;
  /** What is left, of the larger side of the comparison; below 0 where the limit is not met, NaN where empty. */
  readonly margin: number;
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
  return study.limits.map(({ text, comparison, left, right }) => {
    const a = side(left);
    const b = side(right);
    const met = meets(comparison, a, b);
    const unit = unitOf(study, left) ?? unitOf(study, right);
    // a share of a temperature means something in degrees Celsius, not in kelvin
    const read = unit?.offset ? unit : UNITS.one;
    const share = apart(toUnit(a, read), toUnit(b, read));
    const own = unitOf(study, left);
    return {
      text,
      met,
      value: own === null ? null : measure(a, own),
      margin: met ? share : -share,
    };
  });
}

/** Of the larger of two numbers; a time without end is wholly apart from any other. */
function apart(a: number, b: number): number {
  if (a === b) return 0;
  const larger = Math.max(Math.abs(a), Math.abs(b));
  return larger === Number.POSITIVE_INFINITY ? 1 : Math.abs(a - b) / larger;
}

/** The unit of a side that is one number of the rig's, and nothing besides. */
function unitOf({ derive }: Pick<Study, 'derive'>, [only, ...more]: Program): Unit | null {
  if (only === undefined || more.length > 0) return null;
  if (only.op === 'quantity') return QUANTITIES[only.index]!.unit;
  if (only.op === 'input') return INPUTS[only.slot]!.unit;
  return only.op === 'derived' ? derive[only.index]!.unit : null;
}
