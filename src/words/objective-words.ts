import type { Objective, Program } from '../model/program.ts';
import { QUANTITIES, type Quantity, type QuantityName } from '../model/quantities.ts';

/** The quantity that a program is, and nothing besides; null if it computes. */
export function plainQuantity(program: Program): Quantity | null {
  const [only, ...more] = program;
  return only?.op === 'quantity' && more.length === 0 ? QUANTITIES[only.index]! : null;
}

/** What an objective is about: `coil mass`, `height / current`. */
export function objectiveLabel({ program, text }: Objective): string {
  return plainQuantity(program)?.label ?? text;
}

/** Superlatives that a builder would use, [maximise, minimise]. */
const TRADE: Partial<Record<QuantityName, readonly [string, string]>> = {
  coil_mass: ['heaviest', 'lightest'],
  height: ['floats highest', 'floats lowest'],
  plate_loss: ['most heat in the plate', 'coolest plate'],
  coil_loss: ['most heat in the coil', 'coolest coil'],
  vibration: ['shakes most', 'quietest'],
};

/** What is best about the design that is best in an objective, in lower case. */
export function superlative(objective: Objective): string {
  const { program, sense } = objective;
  const trade = TRADE[plainQuantity(program)?.name as QuantityName];
  if (trade) return trade[sense === 'maximise' ? 0 : 1];
  return `${sense === 'maximise' ? 'highest' : 'lowest'} ${objectiveLabel(objective)}`;
}
