import { REFERENCE_TEMPERATURE } from './constants.ts';

/**
 * Resistivity at a temperature in K: rho20 (1 + a (T - 20 degC)), ohm m.
 * The linear law of IEC 60028 for copper and IEC 60889 for aluminium; good to about 1 % from -50 to 200 degC.
 */
export function resistivityAt(rho20: number, coefficient: number, temperature: number): number {
  return rho20 * (1 + coefficient * (temperature - REFERENCE_TEMPERATURE));
}

/**
 * Least share of its value at 20 degC down to which the linear law is followed: aluminium's at -203 degC. Colder, metals
 * keep what impurities leave them, and the line falls through zero.
 */
export const LEAST_RESISTIVITY_RATIO = 0.1;

/** Whether the linear law gives a resistivity at a temperature in K: false also where it would be negative. */
export function holdsResistivity(coefficient: number, temperature: number): boolean {
  return 1 + coefficient * (temperature - REFERENCE_TEMPERATURE) >= LEAST_RESISTIVITY_RATIO;
}
