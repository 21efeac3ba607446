/**
 * A coil over a plate as a function of the gap, whatever the plate is: dL, the inductance that the plate adds (its real
 * part is negative over a good conductor), and its gap derivatives, at the gap last evaluated.
 */
export interface GapCoupling {
  /** H, H/m, H/m2, H/m3. */
  readonly inductanceRe: number;
  readonly inductanceIm: number;
  readonly slopeRe: number;
  readonly slopeIm: number;
  readonly curvatureRe: number;
  readonly jerkRe: number;
  /** Real parts of the derivatives alone: what the lift needs. */
  evaluateLift(gap: number): void;
  evaluate(gap: number): void;
  /** The gap at which Re of the slope falls to a target, H/m, where that is known without a search; NaN: it is not. */
  gapOf?(target: number): number;
}
