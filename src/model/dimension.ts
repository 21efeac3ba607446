/** Exponents of the five base units that a rig needs: [m, kg, s, A, K]. */
export type Dimension = readonly [number, number, number, number, number];

export const NONE: Dimension = [0, 0, 0, 0, 0];
export const LENGTH: Dimension = [1, 0, 0, 0, 0];
export const AREA: Dimension = [2, 0, 0, 0, 0];
export const MASS: Dimension = [0, 1, 0, 0, 0];
export const TIME: Dimension = [0, 0, 1, 0, 0];
export const CURRENT: Dimension = [0, 0, 0, 1, 0];
export const CHARGE: Dimension = [0, 0, 1, 1, 0];
export const TEMPERATURE: Dimension = [0, 0, 0, 0, 1];
export const PER_TEMPERATURE: Dimension = [0, 0, 0, 0, -1];
export const FREQUENCY: Dimension = [0, 0, -1, 0, 0];
export const FORCE: Dimension = [1, 1, -2, 0, 0];
export const FORCE_PER_LENGTH: Dimension = [0, 1, -2, 0, 0];
export const SPEED: Dimension = [1, 0, -1, 0, 0];
export const DAMPING: Dimension = [0, 1, -1, 0, 0];
export const ENERGY: Dimension = [2, 1, -2, 0, 0];
export const PRESSURE: Dimension = [-1, 1, -2, 0, 0];
export const POWER: Dimension = [2, 1, -3, 0, 0];
export const VOLTAGE: Dimension = [2, 1, -3, -1, 0];
export const RESISTANCE: Dimension = [2, 1, -3, -2, 0];
export const RESISTIVITY: Dimension = [3, 1, -3, -2, 0];
export const CONDUCTIVITY: Dimension = [-3, -1, 3, 2, 0];
export const INDUCTANCE: Dimension = [2, 1, -2, -2, 0];
export const CAPACITANCE: Dimension = [-2, -1, 4, 2, 0];
export const CURRENT_DENSITY: Dimension = [-2, 0, 0, 1, 0];
export const MAGNETIC_FIELD: Dimension = [-1, 0, 0, 1, 0];
export const FLUX_DENSITY: Dimension = [0, 1, -2, -1, 0];
export const DENSITY: Dimension = [-3, 1, 0, 0, 0];
export const SPECIFIC_HEAT: Dimension = [2, 0, -2, 0, -1];
export const THERMAL_CONDUCTIVITY: Dimension = [1, 1, -3, 0, -1];
export const FIELD_STRENGTH: Dimension = [1, 1, -3, -1, 0];

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, i) => exponent === b[i]);
}

export function isDimensionless(a: Dimension): boolean {
  return sameDimension(a, NONE);
}

/** Dimension of a product `a * b^power`. */
export function combine(a: Dimension, b: Dimension, power = 1): Dimension {
  return a.map((exponent, i) => exponent + power * b[i]!) as unknown as Dimension;
}

const BASE_SYMBOLS = ['m', 'kg', 's', 'A', 'K'] as const;

/** The SI unit of a dimension in base units, such as `m2 kg s-3 A-1`; empty for a pure number. */
export function siSymbol(a: Dimension): string {
  return BASE_SYMBOLS.flatMap((symbol, i) => {
    const exponent = a[i]!;
    if (exponent === 0) return [];
    return [exponent === 1 ? symbol : `${symbol}${exponent}`];
  }).join(' ');
}
