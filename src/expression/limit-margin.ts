import { INPUTS } from '../model/inputs.ts';
import type { Derived, Limit, Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { toUnit, UNITS, type Unit } from '../model/units.ts';

/**
 * How far a design is from the bound of a limit: what is between its two sides, of the larger one; 0 at the bound, NaN where
 * one side is empty, and where the bound is 0: of nothing there is no share. A share of a temperature means something in degrees Celsius, not in kelvin. The one margin that cards
 * and reports show.
 * @param left, right values of the limit's sides, SI
 */
export function limitMargin(limit: Limit, derive: readonly Derived[], left: number, right: number): number {
  const unit = unitOf(limit.left, derive) ?? unitOf(limit.right, derive);
  const read = unit?.offset ? unit : UNITS.one;
  if (left !== right && isAgainstZero(limit, derive)) return Number.NaN;
  return apart(toUnit(left, read), toUnit(right, read));
}

/** Whether one side is 0, in the unit that it is read in: `sideways_stiffness >= 0 N/mm`. */
export function isAgainstZero(limit: Pick<Limit, 'left' | 'right'>, derive: readonly Derived[]): boolean {
  const unit = unitOf(limit.left, derive) ?? unitOf(limit.right, derive);
  const read = unit?.offset ? unit : UNITS.one;
  return [limit.left, limit.right].some(
    ([only, ...more]) => only?.op === 'constant' && more.length === 0 && toUnit(only.value, read) === 0,
  );
}

/** The unit of a side that is one number of the rig's, and nothing besides. */
export function unitOf([only, ...more]: Program, derive: readonly Derived[]): Unit | null {
  if (only === undefined || more.length > 0) return null;
  if (only.op === 'quantity') return QUANTITIES[only.index]!.unit;
  if (only.op === 'input') return INPUTS[only.slot]!.unit;
  return only.op === 'derived' ? derive[only.index]!.unit : null;
}

/** Of the larger of two numbers; a time without end is wholly apart from any other. */
function apart(a: number, b: number): number {
  if (a === b) return 0;
  const larger = Math.max(Math.abs(a), Math.abs(b));
  return larger === Number.POSITIVE_INFINITY ? 1 : Math.abs(a - b) / larger;
}
