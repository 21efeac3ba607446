import { type BesselPair, besselJ01 } from '../math/bessel-j01.ts';
import { besselMoment } from '../math/bessel-moment.ts';
import { MU0 } from './constants.ts';
import { type PlateStack, SlabResponse } from './plate-reflection.ts';
import type { NodeSet } from './spectrum-nodes.ts';
import type { Section } from './winding-spectrum.ts';

/**
 * Peak flux density at the coil-side face of a magnetic layer, T per A rms in the coil: sqrt(2) times the largest of
 * |B| over the radii under the winding. Deeper in the layer it is less.
 *
 * In the vanishing air gap above layer m a wave of amplitude F comes down and Gamma_below F goes back up; H_r is
 * continuous into the layer, where B_r = mu0 mu H_r, and B_z is continuous:
 *   B_r = mu (mu0 n / 2) int S (1 - e^{-kh}) e^{-k gap} F (1 - Gamma_below) J1(kr) dk,
 *   B_z =    (mu0 n / 2) int S (1 - e^{-kh}) e^{-k gap} F (1 + Gamma_below) J0(kr) dk.
 * The nodes are at k = b / scaleRadius, m.
 *
 * Domain: linear layers of the wide plate. Accuracy: 5 % (radii and nodes are few; the averaged tail of the nodes is
 * left out), ample for a threshold that is itself a rule of thumb. The two components are taken as in phase, which
 * can only overestimate.
 * Source: Dodd & Deeds (1968), field form; the layers as in plate-reflection.
 */
export class MagneticFlux {
  private readonly sums = new Float64Array(4 * RADII);
  private readonly pair: BesselPair = { j0: 0, j1: 0 };
  private readonly slab = new SlabResponse();
  private readonly here = new Float64Array(1);
  /** Waves in the air just above the magnetic layer, for a unit wave from the coil. */
  private readonly wave = { downRe: 1, downIm: 0, upRe: 0, upIm: 0 };

  /** @param magnetic which of the plate's layers */
  peak(
    section: Section,
    plate: PlateStack,
    magnetic: number,
    nodes: NodeSet,
    scaleRadius: number,
    gap: number,
  ): number {
    const { innerRadius: r1, outerRadius: r2, height: h, turns } = section;
    const { count, b: bs, weight, window } = nodes;
    const { sums, pair, wave } = this;
    sums.fill(0);
    const mu = plate.layers[magnetic]!.relativePermeability;
    for (let i = 0; i < count; i++) {
      if (window[i]! < 1) break;
      const b = bs[i]!;
      const k = b / scaleRadius;
      const x = k * gap;
      if (x > NOTHING) break;
      this.arrive(plate, magnetic, k);
      const amplitude =
        weight[i]! *
        b *
        b *
        (besselMoment(k * r2) - besselMoment(k * r1)) *
        -Math.expm1(-k * h) *
        Math.exp(-x);
      for (let p = 0; p < RADII; p++) {
        const radius = r1 + (r2 - r1) * FRACTIONS[p]!;
        besselJ01(k * radius, pair);
        const radial = mu * amplitude * pair.j1;
        const axial = amplitude * pair.j0;
        const at = 4 * p;
        sums[at]! += radial * (wave.downRe - wave.upRe);
        sums[at + 1]! += radial * (wave.downIm - wave.upIm);
        sums[at + 2]! += axial * (wave.downRe + wave.upRe);
        sums[at + 3]! += axial * (wave.downIm + wave.upIm);
      }
    }
    let largest = 0;
    for (let at = 0; at < 4 * RADII; at += 4) {
      const square = sums[at]! ** 2 + sums[at + 1]! ** 2 + sums[at + 2]! ** 2 + sums[at + 3]! ** 2;
      largest = Math.max(largest, square);
    }
    // int dk = int db / R, and S = X / k^2 = R^2 X / b^2, R the radius that scales the nodes
    const scale = ((MU0 / 2) * turns * scaleRadius) / ((r2 - r1) * h);
    return Math.SQRT2 * scale * Math.sqrt(largest);
  }

  private arrive({ layers, layerCount, omega }: PlateStack, magnetic: number, k: number): void {
    let re = 0;
    let im = 0;
    let downRe = 1;
    let downIm = 0;
    let belowRe = 0;
    let belowIm = 0;
    const { slab, here, wave } = this;
    here[0] = k;
    for (let j = layerCount - 1; j >= 0; j--) {
      slab.fill(layers[j]!, omega, here, 1);
      const g = slab.gammaRe[0]!;
      const h = slab.gammaIm[0]!;
      const tauRe = slab.tauRe[0]!;
      const tauIm = slab.tauIm[0]!;
      const dr = 1 - (g * re - h * im);
      const di = -(g * im + h * re);
      const d = dr * dr + di * di;
      if (j < magnetic) {
        // the wave that reaches what is below this layer: tau / (1 - Gamma_j Gamma_below)
        const fr = (tauRe * dr + tauIm * di) / d;
        const fi = (tauIm * dr - tauRe * di) / d;
        const r = downRe * fr - downIm * fi;
        downIm = downRe * fi + downIm * fr;
        downRe = r;
      }
      const tr = tauRe * tauRe - tauIm * tauIm;
      const ti = 2 * tauRe * tauIm;
      const nr = tr * re - ti * im;
      const ni = tr * im + ti * re;
      re = g + (nr * dr + ni * di) / d;
      im = h + (ni * dr - nr * di) / d;
      if (j === magnetic) {
        belowRe = re;
        belowIm = im;
      }
    }
    wave.downRe = downRe;
    wave.downIm = downIm;
    wave.upRe = belowRe * downRe - belowIm * downIm;
    wave.upIm = belowRe * downIm + belowIm * downRe;
  }
}

/** Radii over the section, from the inner edge (0) to the outer (1): the peak is near the middle. */
const FRACTIONS = [0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9] as const;
const RADII = FRACTIONS.length;
const NOTHING = 40;
