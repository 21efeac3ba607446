import { decay } from '../math/decay.ts';
import type { GapDecays } from './gap-decays.ts';
import type { PlateReflection } from './plate-reflection.ts';
import type { NodeSet } from './spectrum-nodes.ts';
import type { WindingSpectrum } from './winding-spectrum.ts';

/** More layers than this are taken together, evenly: the voltage along the axis is smooth. */
const MOST_SLICES = 64;

/** A slice this much weaker than the face's, and all beyond it, are left out. */
const NEGLIGIBLE = 1e-6;

/** Nodes whose mirror adds less than this of a slice's even share of the free inductance are left out. */
const FAINT = 5e-6;

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
 * Some of the winding's nodes are enough (`CoarseNodes`): they move the result by 1e-4 at most.
 *
 * Accuracy: 1e-3, between stations (see GapStations) 2e-3 at most; edges of a plate are left out.
 * Omega in rad/s; resistance in ohm.
 */
export class LayerVoltages {
  private slices = 0;
  private layers = 0;
  /** Which of the spectrum's nodes are taken. */
  private at: Int32Array = new Int32Array(0);
  private count = 0;
  /** Inductance of each slice without a plate, H. */
  private readonly free = new Float64Array(MOST_SLICES);
  private readonly re = new Float64Array(MOST_SLICES);
  private readonly im = new Float64Array(MOST_SLICES);
  /** Of each node q / F (1 - e^{-x/n}), H, and e^{-x/n}. */
  private weight = new Float64Array(256);
  private step = new Float64Array(256);
  /** What is left of the weights from a node on, H. */
  private left = new Float64Array(256);
  /** What falls from slice to slice, at the face. */
  private first = new Float64Array(256);
  private second = new Float64Array(256);
  /** What need not be followed, H. */
  private faint = 0;

  /** The winding in hand from now on: its spectrum on the nodes of a set, height in m, and layers. */
  prepare(spectrum: WindingSpectrum, { coarse }: NodeSet, height: number, layers: number): void {
    const { k, q, fall, freeInductance } = spectrum;
    const { count, at, share: weights } = coarse;
    if (this.weight.length < count + BLOCK) {
      for (const name of ['weight', 'step', 'left', 'first', 'second'] as const) {
        this[name] = new Float64Array(2 * (count + BLOCK));
      }
    }
    const { free, weight, step, left, first } = this;
    const slices = Math.min(layers, MOST_SLICES);
    this.slices = slices;
    this.layers = layers;
    this.at = at;
    this.count = count;
    const share = height / slices;
    for (let i = 0; i < count; i++) {
      const node = at[i]!;
      const e = decay(k[node]! * share);
      const per = 1 / fall[node]!;
      const part = weights[i]! * q[node]! * per * (1 - e);
      weight[i] = part;
      step[i] = e;
      first[i] = part * per;
    }
    // `fill` would be a call
    for (let i = count; i < count + BLOCK; i++) first[i] = 0;
    let rest = 0;
    for (let i = count - 1; i >= 0; i--) {
      rest += weight[i]!;
      left[i] = rest;
    }
    this.faint = (FAINT * freeInductance) / slices;
    // the near face's parts: sums of falling waves
    for (let l = 0; l < slices; l++) free[l] = 0;
    addWaves(first, step, count, free, slices);
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

  /**
   * Highest voltage between two adjacent layers over 2 V / n, for two layers or more.
   * @param reflection at the nodes of the spectrum last prepared, as are `decays` at the gap
   */
  unevenness(reflection: PlateReflection, resistance: number, decays: GapDecays, omega: number): number {
    const { re, im, free, slices } = this;
    this.addMirror(reflection, decays);
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
  private addMirror(reflection: PlateReflection, { fall }: GapDecays): void {
    const { re, im, slices, at, count, weight, step, left, first, second, faint } = this;
    const { re: gammaRe, im: gammaIm } = reflection;
    for (let l = 0; l < slices; l++) {
      re[l] = 0;
      im[l] = 0;
    }
    let seen = 0;
    for (; seen < count; seen++) {
      const node = at[seen]!;
      const e = fall[node]!;
      if (e * left[seen]! < faint) break;
      const mirror = e * weight[seen]!;
      first[seen] = mirror * gammaRe[node]!;
      second[seen] = mirror * gammaIm[node]!;
    }
    first[seen] = 0;
    second[seen] = 0;
    // as addWaves, of two sets that fall alike
    for (let i = 0; i < seen; i += 2) {
      let a = first[i]!;
      let b = first[i + 1]!;
      let c = second[i]!;
      let d = second[i + 1]!;
      const ea = step[i]!;
      const eb = step[i + 1]!;
      for (let l = 0; l < slices; l++) {
        re[l]! += a + b;
        im[l]! += c + d;
        a *= ea;
        b *= eb;
        c *= ea;
        d *= eb;
      }
    }
  }
}

/** Nodes that are followed at once: their products do not wait for each other. */
const BLOCK = 4;

/** Adds sum_i first_i step_i^l to out_l; a multiple of BLOCK of nodes, those past `count` being 0. */
function addWaves(
  first: Float64Array,
  step: Float64Array,
  count: number,
  out: Float64Array,
  slices: number,
): void {
  for (let i = 0; i < count; i += BLOCK) {
    let a = first[i]!;
    let b = first[i + 1]!;
    let c = first[i + 2]!;
    let d = first[i + 3]!;
    const ea = step[i]!;
    const eb = step[i + 1]!;
    const ec = step[i + 2]!;
    const ed = step[i + 3]!;
    const least = NEGLIGIBLE * (Math.abs(a) + Math.abs(b) + Math.abs(c) + Math.abs(d));
    for (let l = 0; l < slices; l++) {
      out[l]! += a + b + (c + d);
      if (Math.abs(a) + Math.abs(b) + Math.abs(c) + Math.abs(d) < least) break;
      a *= ea;
      b *= eb;
      c *= ec;
      d *= ed;
    }
  }
}
