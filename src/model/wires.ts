import { ENAMEL_INCREASE } from './enamel-table.ts';

/** Gauges from 4/0 (-3) to 50. */
export const AWG_RANGE = Object.freeze({ thickest: -3, thinnest: 50 });

/**
 * Bare diameter, m, of American wire gauge n: 0.005 in x 92^((36 - n)/39) (ASTM B258). 0 is 1/0, -3 is 4/0.
 * The formula, not the standard's table, which rounds to 0.1 mil and so moves a resistance by up to 0.5 %.
 */
export function awgDiameter(n: number): number {
  return 0.005 * 0.0254 * 92 ** ((36 - n) / 39);
}

/** Gauge number from its text, such as `AWG 10`, `awg10`, `AWG 4/0` or `AWG 0000`; null if it is none. */
export function parseAwg(text: string): number | null {
  const match = /^\s*AWG\s*(?:([1-4])\/0|(0{1,4})|([1-9]\d?))\s*$/i.exec(text);
  if (!match) return null;
  const [, oughts, zeros, number] = match;
  if (oughts !== undefined) return 1 - Number(oughts);
  if (zeros !== undefined) return 1 - zeros.length;
  const n = Number(number);
  return n <= AWG_RANGE.thinnest ? n : null;
}

const NOMINAL = Float64Array.from(ENAMEL_INCREASE, ([mm]) => mm * 1e-3);
const GRADES = 3;
const THICKNESS = Float64Array.from(
  ENAMEL_INCREASE.flatMap(([, ...increases]) => increases.map((um) => um / 2e6)),
);

/** Bare diameters, m, that IEC 60317-0-1 has an enamel for. */
export const ENAMELLED = Object.freeze({ thinnest: 0.071e-3, thickest: 5e-3 });

/** Takes 2.0 mm, however it was computed, for the nominal 2.000 mm. */
const ROUNDING = 1e-9;

/**
 * Enamel on one side, m: half of what the maximum overall diameter of IEC 60317-0-1 exceeds the nominal
 * diameter by. An intermediate size takes the next larger nominal's increase. NaN outside 0.071 to 5 mm and
 * for a grade other than 1, 2 or 3. Allocates nothing: the rig evaluates it for every design.
 */
export function enamelThickness(bareDiameter: number, grade: number): number {
  const d = bareDiameter * (1 - ROUNDING);
  if (!(bareDiameter * (1 + ROUNDING) >= ENAMELLED.thinnest && d <= ENAMELLED.thickest)) return Number.NaN;
  if (grade !== 1 && grade !== 2 && grade !== 3) return Number.NaN;
  let low = 0;
  let high = NOMINAL.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (NOMINAL[middle]! >= d) high = middle;
    else low = middle + 1;
  }
  return THICKNESS[low * GRADES + grade - 1]!;
}
