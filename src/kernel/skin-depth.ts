import { MU0 } from './constants.ts';

/**
 * Skin depth sqrt(2 rho / (w mu0 mu_r)), m: the depth at which a plane wave's field in a thick conductor has
 * fallen to 1/e. Resistivity in ohm m, omega in rad/s.
 * Source: any textbook, such as J. D. Jackson, Classical Electrodynamics, 3rd ed. (1999), eq. 5.165.
 */
export function skinDepth(resistivity: number, relativePermeability: number, omega: number): number {
  return Math.sqrt((2 * resistivity) / (omega * MU0 * relativePermeability));
}
