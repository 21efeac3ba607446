import { type BesselRatio, besselRatio } from '../math/bessel-ratio.ts';
import { MU0 } from './constants.ts';

/** Impedance of a round wire over its dc values: resistance R/R0 and internal inductance Li/Li0, Li0 = mu/(8 pi). */
export interface SkinEffect {
  resistanceRatio: number;
  inductanceRatio: number;
}

/**
 * The argument of the skin effect, x = a sqrt(w mu0 mu sigma) = sqrt(2) a / skin depth, dimensionless.
 * Radius in m, resistivity in ohm m, omega in rad/s.
 */
export function skinArgument(
  radius: number,
  resistivity: number,
  relativePermeability: number,
  omega: number,
): number {
  return radius * Math.sqrt((omega * MU0 * relativePermeability) / resistivity);
}

/**
 * Skin effect of a straight round wire far from others, e^{jwt}:
 *   Z/R0 = z J0(z) / (2 J1(z)), z = x e^{3 pi j/4}; R/R0 = Re, Li/Li0 = Im / (x^2/8).
 *
 * @param x skinArgument, 0 <= x
 * @param out receives the results; both are 1 at x = 0
 * @param ratio working storage
 *
 * Accuracy: 1e-12 relative for x in [0, 1e4].
 * Source: E. B. Rosa and F. W. Grover, Bull. Bur. Stand. 8 (1912) 172-181 (from memory); S. Ramo, J. R. Whinnery,
 * T. Van Duzer, Fields and Waves in Communication Electronics, 3rd ed. (1994), 4.5 (from memory).
 */
export function skinEffect(x: number, out: SkinEffect, ratio: BesselRatio = { re: 0, imOverLimit: 0 }): void {
  besselRatio(x, ratio);
  out.resistanceRatio = ratio.re;
  out.inductanceRatio = ratio.imOverLimit;
}
