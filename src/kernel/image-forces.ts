import { MU0 } from './constants.ts';

/**
 * Hand formulas for the mean lift of a flat circular coil over a plate without resistance, which then acts as the coil's
 * image below its face: straight conductors of the length of the mean turn, at twice the height from their images.
 *
 *   thin wire:  F = mu0 (N I)^2 R / (2 h)
 *   flat band of width w, its image at d = 2 h:
 *               F = 2 R mu0 (N I)^2 / w^2 (w atan(w/d) - (d/2) ln(1 + w^2/d^2))
 *
 * N I in A rms, R the mean radius, h from the plate's face to the middle of the winding, all SI; F in N, mean over the cycle.
 * Domain: h > 0, w > 0; R well above h, or the turn is not straight. For w << d the band is the thin wire, for w >> d it is
 * a sheet with the pressure mu0 (N I / w)^2 / 2.
 * Accuracy: against a real plate they miss its resistance, and lie above it by what the skin depth makes of the distance.
 * Source: force between parallel currents, 2e-7 N/m at 1 A and 1 m (old definition of the ampere, CGPM 1948, from memory),
 * and its double integral over two bands, done by hand; the test does it by quadrature.
 */
export function wireImageForce(ampereTurns: number, radius: number, height: number): number {
  return (MU0 * ampereTurns * ampereTurns * radius) / (2 * height);
}

export function bandImageForce(ampereTurns: number, radius: number, width: number, height: number): number {
  const d = 2 * height;
  const ratio = width / d;
  // both terms cancel to second order for a band that is narrow over its distance
  const inner =
    ratio < 1e-3
      ? ((width * ratio) / 2) * (1 - (ratio * ratio) / 6)
      : width * Math.atan(ratio) - (d / 2) * Math.log1p(ratio * ratio);
  return (2 * radius * MU0 * ampereTurns * ampereTurns * inner) / (width * width);
}

/** Height at which a lift that falls with the height equals a weight; NaN where it does not between `low` and `high`. */
export function heightOfForce(
  lift: (height: number) => number,
  weight: number,
  low: number,
  high: number,
): number {
  if (!(lift(low) >= weight) || !(lift(high) <= weight)) return Number.NaN;
  let [a, b] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2;
    if (lift(middle) >= weight) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
