import { equalDiscRadius } from '../kernel/plate-outline.ts';
import { SLOT } from '../model/inputs.ts';

/** Both sides of a square or rectangular plate, m; null for a round one and for one without a size. */
export function sidesOf(slots: Float64Array): readonly [number, number] | null {
  const square = slots[SLOT.plateSquare]!;
  if (!Number.isNaN(square)) return [square, square];
  const one = slots[SLOT.plateSides]!;
  return Number.isNaN(one) ? null : [one, slots[SLOT.plateSides + 1]!];
}

/** Writes the radius of the disc that lifts alike; a round plate keeps its own, a strip has none. */
export function fillEqualDisc(slots: Float64Array): void {
  const sides = sidesOf(slots);
  if (sides) slots[SLOT.plateRadius] = equalDiscRadius(...sides);
}
