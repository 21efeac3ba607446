import { toUnit, type Unit } from '../model/units.ts';

const DIGITS = 4;

/**
 * A number for people: four significant digits, no trailing zeros, powers of ten where plain digits would
 * mislead or run on (3.3e-6, not 0.000003). `-` for an empty cell.
 */
export function significant(value: number): string {
  if (Number.isNaN(value)) return '-';
  if (!Number.isFinite(value)) return value > 0 ? 'unlimited' : '-∞';
  const rounded = Number(value.toPrecision(DIGITS));
  const size = Math.abs(rounded);
  if (size === 0 || (size >= 1e-3 && size < 1e6)) return String(rounded);
  return rounded.toExponential().replace('e+', 'e');
}

/** An SI value in its unit, with the unit: `12.3 mm`. What is infinite or empty is so in any unit. */
export function measure(si: number, unit: Unit): string {
  const text = significant(toUnit(si, unit));
  return unit.symbol === '' || !Number.isFinite(si) ? text : `${text} ${unit.symbol}`;
}
