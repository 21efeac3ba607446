import type { Limit, Program } from '../model/program.ts';
import { Q } from '../model/quantities.ts';

/** A limit that holds one quantity against a number. */
export interface FixedBound {
  /** SI */
  readonly value: number;
  /** As the study writes it. */
  readonly text: string;
}

/** A study's limits on what a chart of lift curves has on its axes. */
export interface LiftBounds {
  readonly current: readonly FixedBound[];
  readonly height: readonly FixedBound[];
}

export function liftBounds(limits: readonly Limit[]): LiftBounds {
  return { current: fixedBounds(limits, Q.current), height: fixedBounds(limits, Q.height) };
}

/** Limits on this quantity (an index of QUANTITIES) alone, against a number: places on an axis. */
function fixedBounds(limits: readonly Limit[], quantity: number): FixedBound[] {
  const isIt = ([only, ...more]: Program) =>
    only?.op === 'quantity' && only.index === quantity && more.length === 0;
  return limits.flatMap(({ left, right, text }) => {
    const side = isIt(left) ? right : isIt(right) ? left : [];
    const [only, ...more] = side;
    return only?.op === 'constant' && more.length === 0 ? [{ value: only.value, text }] : [];
  });
}
