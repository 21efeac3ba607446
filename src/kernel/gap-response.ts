/**
 * How a plate answers a coil that moves a little: what it adds to the coil's inductance for a current e^{pt} at the gap in
 * hand, p complex, when the gap seen by the current (first) and that seen by the answer (second) are distinguished,
 *   D(g1, g2, p) = -sum over the plate's modes of s(g1) s(g2) p / (p + lambda),  dL(p) = D(g, g, p).
 */
export interface GapResponse {
  /** D, H; its derivative by one gap, H/m; by both, H/m2: at the p last given to `evaluate`. */
  readonly valueRe: number;
  readonly valueIm: number;
  readonly slopeRe: number;
  readonly slopeIm: number;
  readonly mixedRe: number;
  readonly mixedIm: number;
  /** p in 1/s. */
  evaluate(pRe: number, pIm: number): void;
}
