import { decay } from '../math/decay.ts';
import type { PlateReflection } from './plate-reflection.ts';
import type { WindingSpectrum } from './winding-spectrum.ts';

/** More layers than this are taken together, evenly: the voltage along the axis is smooth. */
const MOST_SLICES = 64;

/** A slice this much weaker than the face's, and all beyond it, are left out. */
const NEGLIGIBLE = 1e-6;

/** Beyond e^{-20} a mirror's field is not followed. */
const FAINT = 20;

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
 * Omega in rad/s; gap in m; resistance in ohm.
 */
export class LayerVoltages {
  private slices = 0;
  private layers = 0;
  private count = 0;
  /** Inductance of each slice without a plate, H. */
  private readonly free = new Float64Array(MOST_SLICES);
  private readonly re = new Float64Array(MOST_SLICES);
  private readonly im = new Float64Array(MOST_SLICES);
  /** Of each node q / F (1 - e^{-x/n}), H, and e^{-x/n}. */
  private weight = new Float64Array(256);
  private step = new Float64Array(256);

  /** The winding in hand from now on: its spectrum, height in m, and layers. */
  prepare({ count, k, q, freeInductance }: WindingSpectrum, height: number, layers: number): void {
    if (this.weight.length < count) {
      this.weight = new Float64Array(2 * count);
      this.step = new Float64Array(2 * count);
    }
    const { free, weight, step } = this;
    const slices = Math.min(layers, MOST_SLICES);
    this.slices = slices;
    this.layers = layers;
    this.count = count;
    // the near face's parts first, summed up in `free`
    free.fill(0, 0, slices);
    for (let i = 0; i < count; i++) {
      const x = k[i]! * height;
      const fall = 1 - decay(x);
      const width = x / slices;
      const e = decay(width);
      const amplitude = q[i]! / fall;
      const first = amplitude * (1 - e);
      weight[i] = first;
      step[i] = e;
      let part = first / fall;
      const least = NEGLIGIBLE * part;
      for (let l = 0; l < slices; l++) {
        free[l]! += part;
        part *= e;
        if (part < least) break;
      }
    }
    // the far face's part is the near face's of the slice opposite; the rest is even
    let parts = 0;
    for (let l = 0; l < slices; l++) parts += 2 * free[l]!;
    const even = (freeInductance + parts) / slices;
    for (let l = 0; 2 * l < slices; l++) {
      const both = even - free[l]! - free[slices - 1 - l]!;
      free[l] = both;
      free[slices - 1 - l] = both;
    }
  }

  /** Highest voltage between two adjacent layers over 2 V / n, for two layers or more; the spectrum is that last prepared. */
  unevenness(
    { k }: WindingSpectrum,
    reflection: PlateReflection,
    resistance: number,
    gap: number,
    omega: number,
  ): number {
    const { re, im, free, slices } = this;
    this.addMirror(k, reflection, gap);
    let sumRe = 0;
    let sumIm = 0;
    for (let l = 0; l < slices; l++) {
      // omega (L + dL) is the reactance; the imaginary part of dL is the plate's resistance, negative
      const reactance = omega * (free[l]! + re[l]!);
      re[l] = resistance / slices - omega * im[l]!;
      im[l] = reactance;
      sumRe += re[l]!;
      sumIm += reactance;
    }
    let highest = 0;
    const apart = this.layers > MOST_SLICES ? 0 : 1;
    for (let l = 0; l + apart < slices; l++) {
      const resistive = re[l]! + re[l + apart]!;
      const reactive = im[l]! + im[l + apart]!;
      highest = Math.max(highest, resistive * resistive + reactive * reactive);
    }
    return (slices / 2) * Math.sqrt(highest / (sumRe * sumRe + sumIm * sumIm));
  }

  /** Each slice's share of what the plate adds, H, complex. */
  private addMirror(k: Float64Array, reflection: PlateReflection, gap: number): void {
    const { re, im, slices, count, weight, step } = this;
    const { re: gammaRe, im: gammaIm } = reflection;
    re.fill(0, 0, slices);
    im.fill(0, 0, slices);
    for (let i = 0; i < count; i++) {
      const x = 2 * k[i]! * gap;
      if (x > FAINT) break;
      const mirror = weight[i]! * decay(x);
      let mirrorRe = mirror * gammaRe[i]!;
      let mirrorIm = mirror * gammaIm[i]!;
      const e = step[i]!;
      for (let l = 0; l < slices; l++) {
        re[l]! += mirrorRe;
        im[l]! += mirrorIm;
        mirrorRe *= e;
        mirrorIm *= e;
      }
    }
  }
}
