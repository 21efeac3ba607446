/** Stefan-Boltzmann constant, W/(m2 K4) (CODATA 2018; from memory). */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

/**
 * Net heat flux, W/m2, from a surface at `hot` K to surroundings at `cold` K through the exchange factor
 * `emissivity` (a grey surface in a large room: its emissivity): e s (T^4 - T0^4), factored so that a small
 * difference does not cancel. Negative when the surface is the colder.
 * Source: Incropera et al., 7th ed., eq. 1.7 (from memory).
 */
export function radiantFlux(hot: number, cold: number, emissivity: number): number {
  return emissivity * STEFAN_BOLTZMANN * (hot - cold) * (hot + cold) * (hot * hot + cold * cold);
}

/** Exchange factor of two large grey faces that see only each other: 1 / (1/e1 + 1/e2 - 1) (Incropera eq. 13.24). */
export function facingEmissivity(one: number, other: number): number {
  return 1 / (1 / one + 1 / other - 1);
}

/**
 * Area, m2, by which the inside of a short tube radiates to the room through its two open ends, per unit of
 * e s (T^4 - T0^4) of a black body: the exchange of a grey isothermal wall with black openings,
 *   1 / ((1 - e) / (e Aw) + 1 / (Aw F)),  Aw F = 2 A0 (1 - F12),  F12 = (X - sqrt(X^2 - 4)) / 2,  X = 2 + (H/R)^2
 * (view factor of equal coaxial discs). A deep bore radiates by its mouths, a shallow ring by its wall.
 * Source: Incropera et al., 7th ed., eq. 13.20 (two-surface enclosure) and table 13.2 (from memory).
 */
export function boreRadiatingArea(radius: number, height: number, emissivity: number): number {
  const wall = 2 * Math.PI * radius * height;
  const ratio = height / radius;
  const square = ratio * ratio;
  // 1 - F12 = (sqrt(s^2 + 4 s) - s) / 2 with s = (H/R)^2, without cancellation
  const leaving = (2 * square) / (Math.sqrt(square * (square + 4)) + square);
  const seen = 2 * Math.PI * radius * radius * leaving;
  return 1 / ((1 - emissivity) / (emissivity * wall) + 1 / seen);
}
