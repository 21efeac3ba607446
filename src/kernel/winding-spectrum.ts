import { besselMoment, MOMENT_TAIL_START, momentTailP, momentTailQ } from '../math/bessel-moment.ts';
import { wave } from '../math/damped-wave.ts';
import { decay } from '../math/decay.ts';
import { MU0 } from './constants.ts';
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
  /** 1 - e^{-k height}, of a single winding. */
  fall = new Float64Array(256);
  /** Inductance without a plate, H. */
  freeInductance = 0;
  /** X(a), as far as the window is open. */
  private inner = new Float64Array(256);

  reserve(count: number): void {
    if (this.k.length >= count) return;
    this.k = new Float64Array(2 * count);
    this.q = new Float64Array(2 * count);
    this.inner = new Float64Array(2 * count);
    this.fall = new Float64Array(2 * count);
  }

  /** Accuracy: 1e-5 relative in the domain (measured against dense quadrature, see tests). */
  fill(section: Section, nodes: NodeSet): void {
    const { innerRadius: r1, outerRadius: r2, height: h, turns } = section;
    const { count, b, steepWeight } = nodes;
    this.reserve(count);
    const { k: ks, q: qs, fall: falls } = this;
    const perRadius = 1 / r2;
    for (let i = 0; i < count; i++) ks[i] = b[i]! * perRadius;
    this.fillSquares(nodes, r1 / r2);
    const density = turns / ((r2 - r1) * h);
    const scale = Math.PI * MU0 * density * density * r2 ** 5;
    let free = 0;
    let i = 0;
    // 1 - e^{-x}, and 2 (x - 1 + e^{-x}), by the series of the latter where they would cancel
    for (; i < count && ks[i]! * h < SERIES_END; i++) {
      const x = ks[i]! * h;
      const base = scale * steepWeight[i]! * qs[i]!;
      const axial = x * x * axialSeries(x);
      const fall = x - axial / 2;
      qs[i] = base * fall * fall;
      falls[i] = fall;
      free += base * axial;
    }
    for (; i < count; i++) {
      const base = scale * steepWeight[i]! * qs[i]!;
      const x = ks[i]! * h;
      const fall = 1 - decay(x);
      qs[i] = base * fall * fall;
      falls[i] = fall;
      free += 2 * base * (x - fall);
    }
    // beyond the last node S^2 = (r1 + r2) / (pi k^3) on average and e^{-kh} = 0
    const end = nodes.end / r2;
    const rest = ((2 * (r1 + r2)) / Math.PI) * (h / (3 * end ** 3) - 1 / (4 * end ** 4));
    this.count = count;
    this.freeInductance = free + Math.PI * MU0 * density * density * rest;
  }

  /** (X(b) - X(a))^2, or its average, at every node; kept in `q` until the weights take its place. */
  private fillSquares(nodes: NodeSet, ratio: number): void {
    const { windowEnd, b, moment } = nodes;
    const { q: squares, inner } = this;
    for (let i = 0; i < windowEnd; i++) {
      const x = besselMoment(b[i]! * ratio);
      inner[i] = x;
      const s = moment[i]! - x;
      squares[i] = s * s;
    }
    this.average(nodes, ratio);
  }

  /**
   * From where the window begins to close, (X(b) - X(a))^2 averaged over its fast oscillation, for b well into the tail: the
   * two edges' own shares, less the slow beat between them where it has not faded. An inner edge not yet in its tail counts
   * with 1 - X(a). Long enough not to be carried into `fill`, where its own small functions would remain calls.
   */
  private average(nodes: NodeSet, ratio: number): void {
    const { count, exactCount, windowEnd, window, b, outerAverage, tailP, tailQ, stretch } = nodes;
    const { q: squares, inner } = this;
    const root = (2 / Math.PI) * Math.sqrt(ratio);
    const innerFactor = ratio / Math.PI;
    let i = exactCount;
    for (; i < count && b[i]! * ratio < MOMENT_TAIL_START; i++) {
      const s = 1 - (i < windowEnd ? inner[i]! : besselMoment(b[i]! * ratio));
      const average = outerAverage[i]! + s * s;
      squares[i] = i < windowEnd ? average + window[i]! * (squares[i]! - average) : average;
    }
    for (; i < count; i++) {
      const bi = b[i]!;
      const a = bi * ratio;
      const pa = momentTailP(a);
      const qa = momentTailQ(a);
      let average = outerAverage[i]! + innerFactor * bi * (pa * pa + qa * qa);
      const apart = bi - a;
      const beat = beatWindow(apart, stretch);
      if (beat > 0) {
        const inPhase = tailP[i]! * pa + tailQ[i]! * qa;
        const quadrature = tailQ[i]! * pa - tailP[i]! * qa;
        average -= root * bi * beat * wave(apart, inPhase, -quadrature);
      }
      squares[i] = i < windowEnd ? average + window[i]! * (squares[i]! - average) : average;
    }
  }
}

/** Below this 2 (x - 1 + e^{-x}) = x^2 axialSeries(x): seven terms, 1e-12 relative. */
const SERIES_END = 0.1;

function axialSeries(x: number): number {
  return 1 - x * (1 / 3 - x * (1 / 12 - x * (1 / 60 - x * (1 / 360 - x * (1 / 2520 - x * (1 / 20160))))));
}
