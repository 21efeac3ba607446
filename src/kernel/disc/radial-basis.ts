import { besselJ1 } from '../../math/bessel-j1.ts';
import { besselSequence } from '../../math/bessel-sequence.ts';
import { gaussLegendre } from '../../math/gauss-legendre.ts';
import { gaussRule } from '../../math/gauss-rule.ts';
import { RadialTail, type Rim, rimPoints, transformRim } from './radial-tail.ts';

/**
 * Current profiles phi_n(r) over the radius of a disc, orthonormal in int phi_n phi_m r dr over [a, R]:
 *
 *   smooth ones, (r/R) p_n(r^2/R^2): a swirling current is an odd function of r, hence the r^2. Without a hole
 *   they are Zernike's radial polynomials R^1_{2n+1}, whose Hankel transform is closed,
 *     f_n(k) = int phi_n r J1(kr) dr = 2 R sqrt(n + 1) (-1)^n J_{2n+2}(kR) / (kR);
 *   edge layers, (r/R) e^{-(R - r)/s} (and e^{-(r - a)/s} at a hole) for a few scales s: the current crowds at
 *   a rim within skin depth and thickness, which polynomials would need a hundred terms to follow. They are
 *   made orthogonal to the smooth ones and transformed by a graded Gauss rule.
 *
 * Sources: M. Born and E. Wolf, Principles of Optics, 7th ed. (1999), 9.2.1 and app. VII (from memory; checked
 * by quadrature in the tests); W. Gautschi, Orthogonal Polynomials (2004), 2.2.3, for the recurrence.
 */
export class RadialBasis {
  /** Number of profiles. */
  readonly count: number;
  /** f_n at the k last given to `transform`, m. */
  readonly hankel: Float64Array;
  readonly smooth: number;
  private readonly radius: number;
  private readonly hole: number;
  private readonly scales: readonly number[];
  readonly alpha: Float64Array;
  readonly beta: Float64Array;
  /** Row n: profile n as a combination of the raw functions 0 to n. */
  private readonly mix: Float64Array;
  private readonly bessel: Float64Array;
  private readonly usual: number;
  /** Without a hole: its rim up to the usual spatial frequency, and beyond. */
  private readonly rim: Rim | null = null;
  private readonly fineRim: Rim | null = null;
  /** With a hole: all profiles up to the usual spatial frequency, and beyond. */
  private readonly coarse: Sampling | null = null;
  private readonly tail: RadialTail | null = null;

  /**
   * @param radius R, m
   * @param hole a, m, 0 without a hole
   * @param smooth number of polynomials
   * @param scales of the edge layers, m
   * @param usual spatial frequency up to which the transform will mostly be needed, 1/m; with a hole at least
   * (10 smooth + 40) / (R - a), or as high as `highest`
   * @param highest largest spatial frequency that will be needed, 1/m
   */
  constructor(
    radius: number,
    hole: number,
    smooth: number,
    scales: readonly number[],
    usual: number,
    highest: number,
  ) {
    this.smooth = smooth;
    this.scales = scales;
    this.count = smooth + (hole > 0 ? 2 : 1) * scales.length;
    this.radius = radius;
    this.hole = hole;
    this.hankel = new Float64Array(this.count);
    this.alpha = new Float64Array(smooth);
    this.beta = new Float64Array(smooth + 1);
    this.bessel = new Float64Array(2 * smooth + 1);
    this.mix = new Float64Array(this.count * this.count);
    this.findRecurrence();
    const points = this.sample(usual);
    this.orthogonalise(points);
    const fine = highest > usual;
    this.usual = usual;
    if (hole > 0) {
      this.coarse = this.tabulate(points);
      if (fine) this.tail = new RadialTail(radius, hole, this, scales, usual, highest);
    } else if (scales.length > 0) {
      this.rim = rimPoints(1, radius, hole, scales, usual);
      this.fineRim = fine ? rimPoints(1, radius, hole, scales, highest) : this.rim;
    }
  }

  /** Fills `hankel` for spatial frequency 0 < k <= highest, 1/m. */
  transform(k: number): void {
    const { hankel, radius, smooth, count } = this;
    if (this.hole === 0) {
      const { bessel } = this;
      const x = k * radius;
      besselSequence(x, 2 * smooth + 1, bessel);
      for (let n = 0; n < smooth; n++) {
        const value = (2 * radius * Math.sqrt(n + 1) * bessel[2 * n + 2]!) / x;
        hankel[n] = n % 2 === 0 ? value : -value;
      }
      if (!this.rim) return;
      transformRim(k > this.usual ? this.fineRim! : this.rim, k, hankel, smooth, 1);
      this.combine(hankel);
      return;
    }
    if (this.tail && k > this.usual) {
      this.tail.transform(k, hankel);
      this.combine(hankel);
      return;
    }
    const { size, r, table } = this.coarse!;
    hankel.fill(0);
    for (let j = 0; j < size; j++) {
      const value = besselJ1(k * r[j]!);
      const row = j * count;
      for (let n = 0; n < count; n++) hankel[n] = hankel[n]! + table[row + n]! * value;
    }
  }

  /** phi_n(r) for n < count, 1/m. */
  evaluate(r: number, out: Float64Array): void {
    this.raw(r, out);
    this.combine(out);
  }

  /** From raw functions to the profiles, in place. */
  private combine(out: Float64Array): void {
    const { count, smooth, mix } = this;
    for (let n = count - 1; n >= smooth; n--) {
      const row = n * count;
      let sum = 0;
      for (let m = 0; m <= n; m++) sum += mix[row + m]! * out[m]!;
      out[n] = sum;
    }
  }

  /** Orthonormal polynomials, then the edge layers as they are. */
  private raw(r: number, out: Float64Array): void {
    const { smooth, alpha, beta, radius, hole, scales } = this;
    const u = (r / radius) ** 2;
    let before = 0;
    let here = r / radius / beta[0]!;
    for (let n = 0; n < smooth; n++) {
      out[n] = here;
      const next = ((u - alpha[n]!) * here - (n > 0 ? beta[n]! * before : 0)) / beta[n + 1]!;
      before = here;
      here = next;
    }
    let at = smooth;
    for (const scale of scales) {
      out[at++] = (r / radius) * Math.exp((r - radius) / scale);
      if (hole > 0) out[at++] = (r / radius) * Math.exp((hole - r) / scale);
    }
  }

  /** alpha_n and beta_n of beta_{n+1} p_{n+1} = (u - alpha_n) p_n - beta_n p_{n-1}; beta_0 is the norm of 1. */
  private findRecurrence(): void {
    const { smooth, alpha, beta, radius } = this;
    const rule = gaussLegendre(smooth + 2);
    const low = (this.hole / radius) ** 2;
    const size = rule.nodes.length;
    const u = rule.nodes.map((x) => low + (1 - low) * x);
    const weight = rule.weights.map((w, i) => (((1 - low) * w * radius * radius) / 2) * u[i]!);
    let before = new Float64Array(size);
    let here = new Float64Array(size).fill(1);
    for (let n = 0; ; n++) {
      const norm = Math.sqrt(here.reduce((sum, p, i) => sum + weight[i]! * p * p, 0));
      beta[n] = norm;
      if (n === smooth) return;
      const p = here.map((value) => value / norm);
      const mean = p.reduce((sum, value, i) => sum + weight[i]! * u[i]! * value * value, 0);
      alpha[n] = mean;
      here = p.map((value, i) => (u[i]! - mean) * value - (n > 0 ? norm * before[i]! : 0));
      before = p;
    }
  }

  /** Gauss points that follow the profiles and J1(kr) up to k = highest: panels shrink toward the rims. */
  private sample(highest: number): Points {
    const { radius, hole, smooth, scales } = this;
    const width = radius - hole;
    const edges = [hole, radius];
    if (scales.length > 0) {
      const first = 2 * Math.min(...scales);
      for (let b = first; b < width / 3; b *= 3) edges.push(radius - b);
      if (hole > 0) for (let b = first; b < width / 3; b *= 3) edges.push(hole + b);
    }
    edges.sort((a, b) => a - b);
    const r: number[] = [];
    const weight: number[] = [];
    for (let e = 0; e + 1 < edges.length; e++) {
      const whole = edges[e + 1]! - edges[e]!;
      // a rule of n points is exact to degree 2 n - 1: half the phase, twice the polynomials' degree, and a margin
      const wanted = 14 + smooth * Math.sqrt(whole / width) + (whole * highest) / 4;
      const pieces = Math.ceil(wanted / LONGEST_RULE);
      const length = whole / pieces;
      const rule = gaussRule(Math.ceil(wanted / pieces));
      for (let piece = 0; piece < pieces; piece++) {
        for (let i = 0; i < rule.nodes.length; i++) {
          const point = edges[e]! + length * (piece + rule.nodes[i]!);
          r.push(point);
          weight.push(length * rule.weights[i]! * point);
        }
      }
    }
    return { r, weight };
  }

  /** Gram and Schmidt, twice is enough (W. Kahan in B. N. Parlett, The Symmetric Eigenvalue Problem, 6.9). */
  private orthogonalise({ r, weight }: Points): void {
    const { count, smooth, mix } = this;
    const size = r.length;
    const out = new Float64Array(count);
    const values = Array.from({ length: count }, () => new Float64Array(size));
    for (let j = 0; j < size; j++) {
      this.raw(r[j]!, out);
      for (let n = 0; n < count; n++) values[n]![j] = out[n]!;
    }
    const dot = (a: Float64Array, b: Float64Array) => {
      let sum = 0;
      for (let j = 0; j < size; j++) sum += weight[j]! * a[j]! * b[j]!;
      return sum;
    };
    for (let n = 0; n < count; n++) {
      mix[n * count + n] = 1;
      if (n < smooth) continue;
      const own = values[n]!;
      for (let pass = 0; pass < 2; pass++) {
        for (let m = 0; m < n; m++) {
          const other = values[m]!;
          const projection = dot(own, other);
          for (let j = 0; j < size; j++) own[j] = own[j]! - projection * other[j]!;
          for (let i = 0; i <= m; i++)
            mix[n * count + i] = mix[n * count + i]! - projection * mix[m * count + i]!;
        }
      }
      const norm = 1 / Math.sqrt(dot(own, own));
      for (let j = 0; j < size; j++) own[j] = own[j]! * norm;
      for (let i = 0; i <= n; i++) mix[n * count + i] = mix[n * count + i]! * norm;
    }
  }

  private tabulate({ r, weight }: Points): Sampling {
    const { count } = this;
    const size = r.length;
    const table = new Float64Array(size * count);
    const out = new Float64Array(count);
    for (let j = 0; j < size; j++) {
      this.evaluate(r[j]!, out);
      for (let n = 0; n < count; n++) table[j * count + n] = out[n]! * weight[j]!;
    }
    return { size, r: Float64Array.from(r), table };
  }
}

interface Points {
  r: number[];
  /** Gauss weight times r. */
  weight: number[];
}

/** Points and, a row a point, phi_n r weight. */
interface Sampling {
  size: number;
  r: Float64Array;
  table: Float64Array;
}

/** Panels that would need more points are split: the rules are computed once each, in a time that grows squared. */
const LONGEST_RULE = 96;
