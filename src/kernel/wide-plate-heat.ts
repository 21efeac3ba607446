import { type BesselPair, besselJ01 } from '../math/bessel-j01.ts';
import { MU0 } from './constants.ts';
import { type CoilWinding, coilSource } from './disc/coil-source.ts';
import { PlateReflection, type PlateStack } from './plate-reflection.ts';
import type { NodeSet } from './spectrum-nodes.ts';

/** Nodes at k = b / scaleRadius. */
export interface Sampling {
  readonly nodes: NodeSet;
  readonly scaleRadius: number;
  /** What counts of the field at a spatial frequency. */
  readonly part: (k: number) => number;
  /** In place of the reflection of linear layers. */
  readonly reflection?: OtherReflection | undefined;
}

export interface OtherReflection {
  reflect(
    k: Float64Array,
    count: number,
    layerCount: number,
    omega: number,
    out: { re: Float64Array; im: Float64Array },
  ): void;
}

/** A coil's gap, m, and its current, A rms. */
export interface CoilAt {
  readonly gap: number;
  readonly current: number;
}

/**
 * Where in a wide plate the heat falls: loss per area of the plate, W/m2, at distances from the axis, for a current in
 * A rms at a gap in m. It is the power that enters the face there, Re(E H*) with
 *   A = (mu0/2) int a(k) J1(kr) (1 + Gamma) e^{-k gap} dk,  E = -jw A,
 *   H_r = -(1/2) int a(k) k J1(kr) (1 - Gamma) e^{-k gap} dk,
 * so that its integral over the plane is -w Im dL current^2. What flows sideways inside the plate before it turns to
 * heat is left out: nothing in a sheet, and no further than a skin depth in a thick plate.
 *
 * Accuracy: 1 % of its largest value at gaps from a fiftieth of the coil radius, the nodes' averaged tail being left out.
 * Source: Dodd & Deeds (1968) for the field; Poynting's theorem.
 */
export function wideLossDensity(
  windings: readonly CoilWinding[],
  { layers, layerCount, omega }: PlateStack,
  { nodes, scaleRadius, part, reflection: other }: Sampling,
  { gap, current }: CoilAt,
  radii: Float64Array,
  out: Float64Array,
): void {
  const { b, weight, window } = nodes;
  let count = 0;
  while (count < nodes.count && window[count]! > 0) count++;
  const k = Float64Array.from(b.subarray(0, count), (x) => x / scaleRadius);
  const reflection = new PlateReflection();
  reflection.fill(layers, layerCount, omega, k, count);
  other?.reflect(k, count, layerCount, omega, reflection);
  const source = Float64Array.from(k, (x, i) => {
    // the set's weight carries 1 / b^4
    const dk = (weight[i]! * b[i]! ** 4) / scaleRadius;
    return part(x) * coilSource(windings, x) * Math.exp(-x * gap) * dk;
  });
  const scale = (omega * MU0 * current * current) / 4;
  const pair: BesselPair = { j0: 0, j1: 0 };
  for (let s = 0; s < radii.length; s++) {
    let aRe = 0;
    let aIm = 0;
    let hRe = 0;
    let hIm = 0;
    for (let i = 0; i < count; i++) {
      besselJ01(k[i]! * radii[s]!, pair);
      const wave = source[i]! * pair.j1;
      aRe += wave * (1 + reflection.re[i]!);
      aIm += wave * reflection.im[i]!;
      hRe += wave * k[i]! * (1 - reflection.re[i]!);
      hIm -= wave * k[i]! * reflection.im[i]!;
    }
    // Re(j A conj(H))
    out[s] = scale * (aRe * hIm - aIm * hRe);
  }
}
