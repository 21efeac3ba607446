import { MAX_OVERLOADS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';

/** A current equal to a rating but for rounding is not beyond it. */
const ROUNDING = 1e-9;

/**
 * How long the variable transformer may give the design's current: for ever up to its rated current, beyond it as long
 * as the line of its overload table that holds the current, and not at all beyond the last one. A line holds up to its
 * own current; between two lines nothing is interpolated, which is on the safe side. Empty without a rated current.
 */
export function computeTransformer({ slots, results, current }: RigState): void {
  const rated = slots[SLOT.transformerCurrent]!;
  if (Number.isNaN(rated)) return;
  let holds = current <= rated * (1 + ROUNDING) ? Number.POSITIVE_INFINITY : 0;
  for (let line = 0; line < MAX_OVERLOADS && holds === 0; line++) {
    const at = SLOT.transformerOverloads + 2 * line;
    if (current <= slots[at]! * (1 + ROUNDING)) holds = slots[at + 1]!;
  }
  results[Q.transformer_holds] = holds;
}
