import { besselMoment, MOMENT_TAIL_START, momentTailP, momentTailQ } from '../math/bessel-moment.ts';
import { MU0 } from './constants.ts';
import { GapDecay } from './gap-decay.ts';
import { beatWindow, type NodeSet } from './spectrum-nodes.ts';

/** A winding of rectangular section with uniform current density, in m; turns in series. */
export interface Section {
  innerRadius: number;
  outerRadius: number;
  height: number;
  turns: number;
}

/** Where a spectrum is put: see WindingSpectrum. */
export interface SpectrumTarget {
  count: number;
  readonly k: Float64Array;
  readonly q: Float64Array;
  freeInductance: number;
  /** Makes room for this many nodes. */
  reserve(count: number): void;
}

/**
 * The winding's source spectrum at the nodes of a set: everything of the integrals that does not depend on the
 * plate or the gap. Arrays are reused from design to design and only grow.
 *
 *   reflected inductance  dL(gap) = sum_i q_i Gamma(k_i) e^{-2 k_i gap}
 *   q = pi mu0 n^2 S(k)^2 ((1 - e^{-kh}) / k)^2 dk,  n = turns / section area,  S = int_{r1}^{r2} r J1(kr) dr
 *
 * Source: C. V. Dodd and W. E. Deeds, J. Appl. Phys. 39 (1968) 2829-2838, doi:10.1063/1.1656680, eqs. for a coil
 * above a half-space and their self inductance; the averaged tail is our own (see spectrum-nodes).
 */
export class WindingSpectrum implements SpectrumTarget {
  count = 0;
  /** Spatial frequencies, 1/m. */
  k = new Float64Array(256);
  /** Weights q_i, H. */
  q = new Float64Array(256);
  /** Inductance without a plate, H. */
  freeInductance = 0;
  private readonly decay = new GapDecay();

  reserve(count: number): void {
    if (this.k.length >= count) return;
    this.k = new Float64Array(2 * count);
    this.q = new Float64Array(2 * count);
  }

  /** Accuracy: 1e-5 relative in the domain (measured against dense quadrature, see tests). */
  fill(section: Section, nodes: NodeSet): void {
    const { innerRadius: r1, outerRadius: r2, height: h, turns } = section;
    const { count, b, weight, moment, window, outerShare, tailP, tailQ } = nodes;
    this.reserve(count);
    const { k: ks, q: qs } = this;
    for (let i = 0; i < count; i++) ks[i] = b[i]! / r2;
    // e^{-kh} at every node with few exponentials; where it has vanished, 1 is left
    const seen = this.decay.fill(nodes, ks, h / 2);
    const e = this.decay.values;
    e.fill(0, seen, count);
    const ratio = r1 / r2;
    const density = turns / ((r2 - r1) * h);
    const scale = Math.PI * MU0 * density * density * r2 * r2 * r2;
    let free = 0;
    for (let i = 0; i < count; i++) {
      const bi = b[i]!;
      const a = bi * ratio;
      const w = window[i]!;
      let square = 0;
      if (w > 0) {
        const s = moment[i]! - besselMoment(a);
        square = s * s;
      }
      if (w < 1) {
        square =
          w * square + (1 - w) * averageSquare(a, bi, outerShare[i]!, tailP[i]!, tailQ[i]!, nodes.stretch);
      }
      const k = ks[i]!;
      const x = k * h;
      // 1 - e^{-x}, and 2 (x - 1 + e^{-x}) as a series where it would cancel
      const fall = x < 0.1 ? -Math.expm1(-x) : 1 - e[i]!;
      const axial = x < 0.02 ? x * x * (1 - x * (1 / 3 - x * (1 / 12 - x / 60))) : 2 * (x - fall);
      const base = (scale * weight[i]! * square) / (k * k);
      qs[i] = base * fall * fall;
      free += base * axial;
    }
    // beyond the last node S^2 = (r1 + r2) / (pi k^3) on average and e^{-kh} = 0
    const end = nodes.end / r2;
    const rest = ((2 * (r1 + r2)) / Math.PI) * (h / (3 * end ** 3) - 1 / (4 * end ** 4));
    this.count = count;
    this.freeInductance = free + Math.PI * MU0 * density * density * rest;
  }
}

/**
 * (X(b) - X(a))^2 averaged over its fast oscillation, for b well into the tail: the two edges' own shares, less
 * the slow beat between them where it has not faded. An inner edge not yet in its tail counts with 1 - X(a).
 */
function averageSquare(
  a: number,
  b: number,
  outerShare: number,
  pb: number,
  qb: number,
  stretch: number,
): number {
  if (a < MOMENT_TAIL_START) {
    const s = 1 - besselMoment(a);
    return outerShare + s * s;
  }
  const pa = momentTailP(a);
  const qa = momentTailQ(a);
  let square = outerShare + (a * (pa * pa + qa * qa)) / Math.PI;
  const beat = beatWindow(b - a, stretch);
  if (beat > 0) {
    const inPhase = pb * pa + qb * qa;
    const quadrature = qb * pa - pb * qa;
    square -=
      ((2 * beat) / Math.PI) * Math.sqrt(a * b) * (inPhase * Math.cos(b - a) - quadrature * Math.sin(b - a));
  }
  return square;
}
