import { modulus } from '../math/modulus.ts';
/**
 * Forces of a coil over a plate from the gap derivative of its reflected inductance. With a current of rms value I
 * the instantaneous force is i(t)^2 / 2 times the slope, and the plate's response is complex, so that
 *   average force             F  = I^2 / 2  Re(d dL/d gap), positive away from the plate
 *   double-frequency amplitude F2 = I^2 / 2 |d dL/d gap|.
 * Both follow from i^2 = I^2 (1 + cos 2wt) and virtual work at constant current (H. H. Woodson and J. R. Melcher,
 * Electromechanical Dynamics I (1968), ch. 3). Slopes in H/m, weights and forces in N, currents in A rms.
 */
export function averageForce(current: number, slopeRe: number): number {
  return (current * current * slopeRe) / 2;
}

export function doubleFrequencyForce(current: number, slopeRe: number, slopeIm: number): number {
  return (current * current * modulus(slopeRe, slopeIm)) / 2;
}

/** Average force equals the weight. NaN where the plate attracts: no current lifts. */
export function liftoffCurrent(weight: number, slopeRe: number): number {
  return slopeRe > 0 ? Math.sqrt((2 * weight) / slopeRe) : Number.NaN;
}

/** Peak force equals the weight. NaN where the force never pushes. */
export function chatterCurrent(weight: number, slopeRe: number, slopeIm: number): number {
  const peak = slopeRe + modulus(slopeRe, slopeIm);
  return peak > 0 ? Math.sqrt((2 * weight) / peak) : Number.NaN;
}
