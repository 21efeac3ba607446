import type { Limit, Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { Unit } from '../model/units.ts';

/** One column held against a bound: the form of a limit in which a miss can be measured. */
export interface LimitReading {
  readonly label: string;
  readonly unit: Unit;
  /** The design must come down to the bound, not up to it. */
  readonly isCeiling: boolean;
  at(batch: RowBatch, row: number): number;
}

/** Null where the limit compares anything else than one quantity with a constant. */
export function readingOf(
  study: Pick<Study, 'derive'>,
  { left, comparison, right }: Limit,
): LimitReading | null {
  const isBelow = comparison === '<' || comparison === '<=';
  if (isConstant(right)) return columnReading(study, left, isBelow);
  return isConstant(left) ? columnReading(study, right, !isBelow) : null;
}

function isConstant(program: Program): boolean {
  return program.every(({ op }) => !['quantity', 'input', 'derived'].includes(op));
}

function columnReading(
  study: Pick<Study, 'derive'>,
  program: Program,
  isCeiling: boolean,
): LimitReading | null {
  const only = program.length === 1 ? program[0]! : null;
  if (only?.op === 'quantity') {
    const { label, unit } = QUANTITIES[only.index]!;
    return { label, unit, isCeiling, at: (batch, row) => column(batch, batch.quantities, only.index)[row]! };
  }
  if (only?.op === 'derived') {
    const { name, unit } = study.derive[only.index]!;
    return {
      label: name,
      unit,
      isCeiling,
      at: (batch, row) => column(batch, batch.derived, only.index)[row]!,
    };
  }
  return null;
}
