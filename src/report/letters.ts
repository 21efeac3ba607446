import type { ChosenDesign } from './report-input.ts';

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** The letter by which all of a report calls a chosen design; null for any other design, and past Z. */
export function letterOf(chosen: readonly ChosenDesign[], row: number): string | null {
  return LETTERS[chosen.findIndex((design) => design.row === row)] ?? null;
}
