import type { Limit, Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { Unit } from '../model/units.ts';
import { measure } from '../text/significant.ts';

/** How many designs miss one limit, and how near the nearest of them comes. */
export interface LimitTally {
  readonly text: string;
  readonly missed: number;
  /** Row `row` of the batch misses this limit, and perhaps no other. */
  miss(batch: RowBatch, row: number, isOnly: boolean): void;
  words(designs: number): string;
}

/** One column held against a bound: the form in which a miss can be measured. */
interface Reading {
  readonly label: string;
  readonly unit: Unit;
  /** The design must come down to the bound, not up to it. */
  readonly isCeiling: boolean;
  at(batch: RowBatch, row: number): number;
}

/** `limit` is null where several share the text: a miss is counted, but cannot be measured. */
export function createLimitTally(
  study: Pick<Study, 'derive'>,
  limit: Limit | null,
  text: string,
): LimitTally {
  const reading = limit && readingOf(study, limit);
  let missed = 0;
  let alone = 0;
  let nearest = { design: -1, value: Number.NaN };
  return {
    text,
    get missed() {
      return missed;
    },
    miss(batch, row, isOnly) {
      missed++;
      if (isOnly) alone++;
      const value = reading?.at(batch, row) ?? Number.NaN;
      const isNearer = reading?.isCeiling ? value < nearest.value : value > nearest.value;
      if (isNearer || (nearest.design < 0 && !Number.isNaN(value)))
        nearest = { design: batch.first + row, value };
    },
    words(designs) {
      const only = alone === 0 ? '' : `, ${alone} of them no other`;
      const near =
        reading && nearest.design >= 0
          ? ` The nearest, design ${nearest.design}, has ${reading.label} ${measure(nearest.value, reading.unit)}.`
          : '';
      return `The limit '${text}' shuts most designs out: ${missed} of ${designs} miss it${only}.${near}`;
    },
  };
}

function readingOf(study: Pick<Study, 'derive'>, { left, comparison, right }: Limit): Reading | null {
  const isBelow = comparison === '<' || comparison === '<=';
  if (isConstant(right)) return columnReading(study, left, isBelow);
  return isConstant(left) ? columnReading(study, right, !isBelow) : null;
}

function isConstant(program: Program): boolean {
  return program.every(({ op }) => !['quantity', 'input', 'derived'].includes(op));
}

function columnReading(study: Pick<Study, 'derive'>, program: Program, isCeiling: boolean): Reading | null {
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
