import { REFERENCE_TEMPERATURE } from './constants.ts';

/**
 * Resistivity at a temperature in K: rho20 (1 + a (T - 20 degC)), ohm m.
 * The linear law of IEC 60028 for copper and IEC 60889 for aluminium; good to about 1 % from -50 to 200 degC.
 */
export function resistivityAt(rho20: number, coefficient: number, temperature: number): number {
  return rho20 * (1 + coefficient * (temperature - REFERENCE_TEMPERATURE));
}
