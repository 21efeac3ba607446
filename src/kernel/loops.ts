import { completeElliptic, type EllipticPair } from '../math/elliptic.ts';
import { MU0 } from './constants.ts';

/** Mutual inductance of two coaxial loops and its derivatives by their axial distance: H, H/m, H/m2. */
export interface LoopMutual {
  value: number;
  slope: number;
  curvature: number;
}

/**
 * Mutual inductance of two coaxial circular filaments, and its first and second derivative by the distance.
 *
 *   M = mu0 sqrt(ab) [(2/k - k) K - (2/k) E],  m = k^2 = 4ab / ((a + b)^2 + z^2)
 *   M'  = mu0 z D^{-1/2} F,  F = K - (1 - m/2) E / m1,  D = (a + b)^2 + z^2,  m1 = ((a - b)^2 + z^2) / D
 *   M'' = mu0 D^{-1/2} [F (1 - z^2/D) - (2 z^2/D) m dF/dm],  m dF/dm = m (m1 K - (1 + m) E) / (4 m1^2)
 *
 * written with C = (2 - m) K - 2 E, so that nothing cancels for loops that are far apart or of unlike size.
 *
 * @param a radius of one loop, m (a >= 0)
 * @param b radius of the other, m (b >= 0)
 * @param z axial distance, m, either sign; M is even in it, the slope odd
 * @param pair working storage
 * @param out receives the results; coincident loops (a = b, z = 0) give Infinity (a filament has no self-inductance)
 *
 * Accuracy: 1e-14 relative (1e-12 in the curvature, away from its zero).
 * Source: J. C. Maxwell, A Treatise on Electricity and Magnetism (1873), art. 701 (from memory); the equivalent
 * DLMF 19.34.1. Derivatives by DLMF 19.4.1-19.4.2.
 */
export function loopMutual(
  a: number,
  b: number,
  z: number,
  out: LoopMutual,
  pair: EllipticPair = createEllipticPair(),
): void {
  const zz = z * z;
  const D = (a + b) * (a + b) + zz;
  if (a === 0 || b === 0) {
    out.value = 0;
    out.slope = 0;
    out.curvature = 0;
    return;
  }
  const m = (4 * a * b) / D;
  const m1 = ((a - b) * (a - b) + zz) / D;
  completeElliptic(m, m1, pair);
  const { K, E, C } = pair;
  const root = MU0 / Math.sqrt(D);
  // MU0 sqrt(ab) C / k = MU0 sqrt(D) C / 2
  out.value = (root * D * C) / 2;
  if (m1 === 0) {
    out.slope = Number.NaN;
    out.curvature = Number.POSITIVE_INFINITY;
    return;
  }
  // m1 F = (1 - m/2) C/2 - m^2 K/4
  const F = ((1 - m / 2) * C - (m * m * K) / 2) / (2 * m1);
  const mF = (m * (m1 * K - (1 + m) * E)) / (4 * m1 * m1);
  out.slope = root * z * F;
  out.curvature = root * (F * (1 - zz / D) - (2 * zz * mF) / D);
}

/** Flux density of a loop, T per A: radial and axial part. */
export interface LoopField {
  radial: number;
  axial: number;
}

/**
 * Flux density of a circular filament that carries 1 A, at a point of its field.
 *
 *   B_r = -M'(a, r, z) / (2 pi r),
 *   B_z = mu0 / (2 pi D^{1/2}) [K + (a^2 - r^2 - z^2) E / ((a - r)^2 + z^2)],  D = (a + r)^2 + z^2
 *
 * @param a radius of the loop, m (a > 0)
 * @param r distance of the point from the axis, m (r >= 0; on the axis B_r = 0, B_z = mu0 a^2 / (2 (a^2+z^2)^{3/2}))
 * @param z axial distance of the point from the loop's plane, m, either sign
 * @param pair working storage
 * @param out receives the results; on the filament itself they are not finite
 *
 * Accuracy: 1e-14 relative of the field's modulus within ten radii; 1e-15 (D / (a r)) beyond.
 * Source: W. R. Smythe, Static and Dynamic Electricity (1950), 7.10, eqs. (6), (7) (from memory); checked
 * against the derivatives of Maxwell's formula.
 */
export function loopField(
  a: number,
  r: number,
  z: number,
  out: LoopField,
  pair: EllipticPair = createEllipticPair(),
): void {
  const zz = z * z;
  const D = (a + r) * (a + r) + zz;
  const near = (a - r) * (a - r) + zz;
  const m = (4 * a * r) / D;
  const m1 = near / D;
  completeElliptic(m, m1, pair);
  const { K, E, C } = pair;
  const root = MU0 / (2 * Math.PI * Math.sqrt(D));
  out.axial = root * (K + ((a * a - r * r - zz) * E) / near);
  out.radial = r === 0 ? 0 : (-root * z * ((1 - m / 2) * C - (m * m * K) / 2)) / (2 * m1 * r);
}

export function createEllipticPair(): EllipticPair {
  return { K: 0, E: 0, C: 0 };
}
