import type { PlateReflection } from './plate-reflection.ts';
import type { WindingSpectrum } from './winding-spectrum.ts';

/** More layers than this are taken together, evenly: the voltage along the axis is smooth. */
const MOST_SLICES = 64;

/** A winding of flat spirals: height in m, resistance in ohm. */
export interface LayeredWinding {
  height: number;
  layers: number;
  resistance: number;
}

/**
 * How the voltage of a winding of flat spirals divides among its layers.
 *
 * The layers do not share it evenly. With the winding's height h, x = k h and a slice from u to v (shares of h, counted from
 * the plate-side face) the flux of the whole winding and of its mirror through the slice's turns gives
 *   L(u, v) = sum q/F^2 (2 x (v - u) - (e^{-xu} - e^{-xv}) - (e^{-x(1-v)} - e^{-x(1-u)}))
 *   dL(u, v) = sum q/F Gamma e^{-2 k gap} (e^{-xu} - e^{-xv}),   F = 1 - e^{-x},
 * with q and Gamma as in WindingSpectrum and PlateReflection: the integrals of Dodd and Deeds (1968) over a slice instead of
 * the whole section, so that all slices together are the winding's own inductance. What lies beyond the last node of the
 * free part is even along the axis. The resistance is shared evenly.
 *
 * Adjacent layers wound to and fro meet at one edge; at the other the two layers' voltages stand between them. The result is
 * the largest of these over twice the mean, 2 V / n: 1 where all share evenly, 1.5 in the limit of a low winding lying on a
 * perfect mirror (the flux then rises from 0 as z (2h - z)).
 *
 * Accuracy: 1e-3; edges of a plate are left out.
 * Omega in rad/s; gap in m.
 */
export class LayerVoltages {
  private readonly re = new Float64Array(MOST_SLICES);
  private readonly im = new Float64Array(MOST_SLICES);

  /** Highest voltage between two adjacent layers over 2 V / n, for two layers or more. */
  unevenness(
    spectrum: WindingSpectrum,
    reflection: PlateReflection,
    { height, layers, resistance }: LayeredWinding,
    gap: number,
    omega: number,
  ): number {
    const { re, im } = this;
    const slices = Math.min(layers, MOST_SLICES);
    re.fill(0);
    im.fill(0);
    const added = this.addInductances(spectrum, reflection, height, slices, gap);
    const even = (spectrum.freeInductance - added) / slices;
    let sumRe = 0;
    let sumIm = 0;
    for (let l = 0; l < slices; l++) {
      // omega (L + dL) is the reactance; the imaginary part of dL is the plate's resistance, negative
      const reactance = omega * (re[l]! + even);
      re[l] = resistance / slices - omega * im[l]!;
      im[l] = reactance;
      sumRe += re[l]!;
      sumIm += reactance;
    }
    let highest = 0;
    const apart = layers > MOST_SLICES ? 0 : 1;
    for (let l = 0; l + apart < slices; l++) {
      highest = Math.max(highest, Math.hypot(re[l]! + re[l + apart]!, im[l]! + im[l + apart]!));
    }
    return (highest * slices) / (2 * Math.hypot(sumRe, sumIm));
  }

  /** Adds each slice's inductance, the plate's part complex; returns the sum of the free parts. */
  private addInductances(
    { count, k, q }: WindingSpectrum,
    reflection: PlateReflection,
    height: number,
    slices: number,
    gap: number,
  ): number {
    const { re, im } = this;
    let added = 0;
    for (let i = 0; i < count; i++) {
      const x = k[i]! * height;
      const fall = -Math.expm1(-x);
      const base = q[i]! / (fall * fall);
      const mirror = base * fall * Math.exp(-2 * k[i]! * gap);
      const mirrorRe = mirror * reflection.re[i]!;
      const mirrorIm = mirror * reflection.im[i]!;
      const width = x / slices;
      const step = Math.exp(-width);
      const drop = -Math.expm1(-width);
      let near = 1;
      for (let l = 0; l < slices; l++) {
        // the far face's part is the near face's of the slice opposite
        const part = near * drop;
        const free = base * (width - part);
        re[l]! += free + mirrorRe * part;
        re[slices - 1 - l]! += free;
        im[l]! += mirrorIm * part;
        added += 2 * free;
        near *= step;
      }
    }
    return added;
  }
}
