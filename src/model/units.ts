import type { Dimension } from './dimension.ts';
import * as D from './dimension.ts';
import { roundDigits } from './round-digits.ts';

/**
 * A unit at the edge of the program. Inside everything is SI; `value = si * scale + offset` is what a table
 * or a terminal shows. `scale` is units per SI unit, an exact number for every metric unit, so that 12.3 mm
 * read and written again stays 12.3.
 */
export interface Unit {
  /** As people read it: `A/mm²`. */
  readonly symbol: string;
  /** As a column name ends: `A_per_mm2`; empty for a pure number. */
  readonly suffix: string;
  readonly dimension: Dimension;
  readonly scale: number;
  /** Only for temperatures, in the unit itself: -273.15 for degC. */
  readonly offset: number;
}

function unit(symbol: string, dimension: Dimension, scale = 1, suffix = symbol, offset = 0): Unit {
  return Object.freeze({ symbol, suffix, dimension, scale, offset });
}

export const UNITS = Object.freeze({
  one: unit('', D.NONE),
  m: unit('m', D.LENGTH),
  mm: unit('mm', D.LENGTH, 1e3),
  um: unit('µm', D.LENGTH, 1e6, 'um'),
  kg: unit('kg', D.MASS),
  s: unit('s', D.TIME),
  A: unit('A', D.CURRENT),
  V: unit('V', D.VOLTAGE),
  J: unit('J', D.ENERGY),
  W: unit('W', D.POWER),
  VA: unit('VA', D.POWER),
  Hz: unit('Hz', D.FREQUENCY),
  ohm: unit('Ω', D.RESISTANCE, 1, 'ohm'),
  mH: unit('mH', D.INDUCTANCE, 1e3),
  uF: unit('µF', D.CAPACITANCE, 1e6, 'uF'),
  uC: unit('µC', D.CHARGE, 1e6, 'uC'),
  N: unit('N', D.FORCE),
  N_per_mm: unit('N/mm', D.FORCE_PER_LENGTH, 1e-3, 'N_per_mm'),
  N_m_per_deg: unit('N·m/°', D.ENERGY, Math.PI / 180, 'N_m_per_deg'),
  N_s_per_m: unit('N·s/m', D.DAMPING, 1, 'N_s_per_m'),
  m_per_s: unit('m/s', D.SPEED, 1, 'm_per_s'),
  per_s: unit('1/s', D.FREQUENCY, 1, '1_per_s'),
  /** Money, in the one currency of a study's stock file, which takes the place of the sign where people read it. */
  money: unit('¤', D.NONE, 1, ''),
  /** A-weighted, above 20 uPa: a pure number to expressions. */
  dBA: unit('dB(A)', D.NONE, 1, 'dBA'),
  mT: unit('mT', D.FLUX_DENSITY, 1e3),
  T: unit('T', D.FLUX_DENSITY),
  degC: unit('°C', D.TEMPERATURE, 1, 'degC', -273.15),
  K: unit('K', D.TEMPERATURE),
  per_K: unit('1/K', D.PER_TEMPERATURE, 1, 'per_K'),
  A_per_m: unit('A/m', D.MAGNETIC_FIELD, 1, 'A_per_m'),
  A_per_mm2: unit('A/mm²', D.CURRENT_DENSITY, 1e-6, 'A_per_mm2'),
  kV_per_mm: unit('kV/mm', D.FIELD_STRENGTH, 1e-6, 'kV_per_mm'),
  MS_per_m: unit('MS/m', D.CONDUCTIVITY, 1e-6, 'MS_per_m'),
  W_per_m_K: unit('W/(m·K)', D.THERMAL_CONDUCTIVITY, 1, 'W_per_m_K'),
  ohm_m: unit('Ω·m', D.RESISTIVITY, 1, 'ohm_m'),
  kg_per_m3: unit('kg/m³', D.DENSITY, 1, 'kg_per_m3'),
  J_per_kg_K: unit('J/(kg·K)', D.SPECIFIC_HEAT, 1, 'J_per_kg_K'),
});

export type UnitName = keyof typeof UNITS;

/** SI value to the unit's value. */
export function toUnit(si: number, u: Unit): number {
  return si * u.scale + u.offset;
}

/** The unit's value to SI. Divides, so that 12.3 mm becomes the double nearest 0.0123. */
export function fromUnit(value: number, u: Unit): number {
  return (value - u.offset) / u.scale;
}

/**
 * SI value of an input to the shortest value in its unit that reads back as the same input: 0.0123 m is
 * 12.3 mm, not 12.299999999999999. For inputs only; computed quantities are converted as they are.
 */
export function inputToUnit(si: number, u: Unit): number {
  const plain = toUnit(si, u);
  for (const digits of [12, 15]) {
    const short = roundDigits(plain, digits);
    if (fromUnit(short, u) === si) return short;
  }
  return plain;
}
