import type { SkinEffect } from './skin-effect.ts';

/**
 * Loss of a round wire in a uniform alternating field across it, over the low-frequency law
 *   P' = (pi a^4 w^2 / (4 rho)) B^2   (W/m; a radius, B rms flux density without the wire).
 *
 * The field is pushed out as the current is: the dipole of the wire is a^2 B (u - 1), u = 2 mu J1 / ((mu - 1) J1 + z J0),
 * z as in skinEffect, so that with Z = z J0 / (2 J1) the ratio is mu^2 (Li/Li0) / |Z + (mu - 1)/2|^2; for mu = 1
 * this is 8 Im(-J2/J0) / x^2.
 *
 * @param x skinArgument of the wire
 * @param skin skinEffect at x: both effects come from the same Bessel ratio
 * @returns 1 at x = 0 (mu = 1), (2 mu / (mu + 1))^2 with mu, 8 sqrt(2) / x^3 far out
 *
 * Accuracy: 1e-12. Skin and proximity loss of a wire add without a cross term (orthogonality).
 * Source: J. A. Ferreira, IEEE Trans. Power Electron. 9 (1994) 127-131, doi:10.1109/63.285503 (from memory; there
 * with Kelvin functions); W. R. Smythe, Static and Dynamic Electricity (1950), ch. 11 (from memory); re-derived.
 */
export function transverseLossRatio(x: number, skin: SkinEffect, relativePermeability: number): number {
  const mu = relativePermeability;
  const re = skin.resistanceRatio + (mu - 1) / 2;
  const im = (skin.inductanceRatio * x * x) / 8;
  return (mu * mu * skin.inductanceRatio) / (re * re + im * im);
}

/**
 * Resistance that the winding's own field adds, ohm: the loss of all wires in the mean-square field of the section,
 * per ampere squared.
 *
 * Wires in hand are each a wire of their own; they are taken as transposed, so that the field drives no current
 * from one to the other (strand-circulation has what it drives otherwise). The field is that of a uniform current density:
 * what neighbouring wires' eddy currents do to each other comes in as a factor on lossRatio (close-wires).
 *
 * @param wireRadius bare, m
 * @param resistivity at the winding's temperature, ohm m
 * @param omega rad/s
 * @param lossRatio transverseLossRatio
 * @param meanSquareField of the section per ampere squared in the coil's terminals, T2/A2
 * @param wireLength of all wires together: length of one x wires in hand, m
 *
 * Source: loss law above; equals C. R. Sullivan, IEEE Trans. Power Electron. 14 (1999) 283-291,
 * doi:10.1109/63.750181, for a one-dimensional field (from memory).
 */
export function proximityResistance(
  wireRadius: number,
  resistivity: number,
  omega: number,
  lossRatio: number,
  meanSquareField: number,
  wireLength: number,
): number {
  const square = wireRadius * wireRadius * omega;
  return ((Math.PI * square * square) / (4 * resistivity)) * lossRatio * meanSquareField * wireLength;
}
