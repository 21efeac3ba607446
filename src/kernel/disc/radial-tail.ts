import { besselJ1 } from '../../math/bessel-j1.ts';
import { besselSequence } from '../../math/bessel-sequence.ts';
import { gaussLegendre } from '../../math/gauss-legendre.ts';

/** How many, and their recurrence, see RadialBasis. */
export interface Polynomials {
  readonly smooth: number;
  readonly alpha: Float64Array;
  readonly beta: Float64Array;
}

/**
 * Transforms int phi r J1(kr) dr of the raw profiles of a disc with a hole at spatial frequencies so high that few
 * oscillations see anything but a rim: Gauss points over the whole width would number thousands.
 *
 * Polynomials: with u = r^2 and r^{m+1} J_m(kr) = d/dr [r^{m+1} J_{m+1}(kr)] / k, partial integration ends,
 *   int_a^R r^2 p(r^2) J1(kr) dr = sum_m (-2)^m / k^{m+1} [r^{m+2} p^{(m)}(r^2) J_{m+2}(kr)]_a^R,
 * a finite sum (our own derivation; checked by quadrature in the tests). Its terms grow to about e^{2 n^2 / (k (R - a))}
 * before they fall, so that from k (R - a) = n^2 / 7.5 on at least nine digits are left. Derivatives of high order and
 * powers of k leave the range of doubles; each is kept times a power of the lowest k, at which their products do not.
 *
 * Edge layers (r/R) e^{-(distance from the rim) / s}: graded Gauss panels as far as e^{-REACH}.
 */
export class RadialTail {
  private readonly radius: number;
  private readonly hole: number;
  private readonly smooth: number;
  /** By end (outer, inner), profile n and m <= n: (-2 / lowest)^m r^{m+2} p_n^{(m)}(r^2) / R. */
  private readonly ends: readonly Float64Array[];
  private readonly lowest: number;
  private readonly bessel: Float64Array;
  /** Points near the outer and the inner rim, nearest first, and for each scale the weights of as many as it needs. */
  private readonly rims: readonly Rim[];

  /**
   * @param lowest, highest spatial frequencies that will be needed, 1/m
   */
  constructor(
    radius: number,
    hole: number,
    polynomials: Polynomials,
    scales: readonly number[],
    lowest: number,
    highest: number,
  ) {
    const { smooth } = polynomials;
    this.lowest = lowest;
    this.radius = radius;
    this.hole = hole;
    this.smooth = smooth;
    this.bessel = new Float64Array(smooth + 2);
    this.ends = [radius, hole].map((r) => derivatives(r, radius, polynomials, lowest));
    this.rims = [1, -1].map((side) => rimPoints(side, radius, hole, scales, highest));
  }

  /** Fills `out`: polynomials, then for each scale the outer and the inner edge layer. */
  transform(k: number, out: Float64Array): void {
    const { smooth, bessel, rims } = this;
    out.fill(0);
    for (let end = 0; end < 2; end++) {
      const r = end === 0 ? this.radius : this.hole;
      this.sequence(k * r);
      const table = this.ends[end]!;
      const sign = end === 0 ? 1 : -1;
      let power = 1 / k;
      for (let m = 0; m < smooth; m++) {
        bessel[m + 2] = bessel[m + 2]! * power * sign;
        power *= this.lowest / k;
      }
      for (let n = 0; n < smooth; n++) {
        const row = n * smooth;
        let sum = 0;
        for (let m = 0; m <= n; m++) sum += table[row + m]! * bessel[m + 2]!;
        out[n] = out[n]! + sum;
      }
    }
    for (let side = 0; side < 2; side++) transformRim(rims[side]!, k, out, smooth + side, 2);
  }

  /** J_0 to J_{smooth+1} at x: upwards where that is stable. */
  private sequence(x: number): void {
    const { bessel } = this;
    const count = bessel.length;
    if (x < Math.max(2 * count, FAR)) {
      besselSequence(x, count, bessel);
      return;
    }
    bessel[0] = farBessel(0, x);
    bessel[1] = farBessel(1, x);
    for (let m = 1; m + 1 < count; m++) bessel[m + 1] = ((2 * m) / x) * bessel[m]! - bessel[m - 1]!;
  }
}

/** Points of a rim, nearest first, and by scale as many weights as the edge layer reaches. */
export interface Rim {
  readonly r: Float64Array;
  readonly weights: readonly Float64Array[];
  /** Room for J1 at the points. */
  readonly wave: Float64Array;
}

/** Transforms of a rim's edge layers, into out[at], out[at + stride] and so on. */
export function transformRim(
  { r, weights, wave }: Rim,
  k: number,
  out: Float64Array,
  at: number,
  stride: number,
): void {
  for (let j = 0; j < r.length; j++) wave[j] = besselJ1(k * r[j]!);
  for (let s = 0; s < weights.length; s++) {
    const weight = weights[s]!;
    let sum = 0;
    for (let j = 0; j < weight.length; j++) sum += weight[j]! * wave[j]!;
    out[at + stride * s] = sum;
  }
}

/** Edge layers are followed to e^{-REACH}, which is what J1 is good to. */
const REACH = 17;

/** From this argument on Hankel's series gives J0 and J1 to 1e-15. */
const FAR = 40;

/** J_order(x) for order 0 or 1 and large x: Hankel's asymptotic series, DLMF 10.17.3. */
function farBessel(order: number, x: number): number {
  const phase = x - (order / 2 + 0.25) * Math.PI;
  let term = 1;
  let p = 1;
  let q = 0;
  for (let i = 1; i < 20; i++) {
    term *= (4 * order * order - (2 * i - 1) ** 2) / (8 * i * x);
    if (i % 2 === 1) q += i % 4 === 1 ? term : -term;
    else p += i % 4 === 2 ? -term : term;
    if (Math.abs(term) < 1e-17) break;
  }
  return Math.sqrt(2 / (Math.PI * x)) * (p * Math.cos(phase) - q * Math.sin(phase));
}

/** (-2 / lowest)^m r^{m+2} / radius times the m-th derivative by u = r^2 of each polynomial, row n, column m. */
function derivatives(
  r: number,
  radius: number,
  { smooth, alpha, beta }: Polynomials,
  lowest: number,
): Float64Array {
  // the recurrence runs in v = (r / radius)^2, and an m-th derivative carries unit^m
  const unit = (2 * r) / (radius * radius * lowest);
  const v = (r / radius) ** 2;
  const table = new Float64Array(smooth * smooth);
  table[0] = 1 / beta[0]!;
  for (let n = 0; n + 1 < smooth; n++) {
    for (let m = 0; m <= n + 1; m++) {
      const here = (v - alpha[n]!) * table[n * smooth + m]!;
      const lower = m > 0 ? m * unit * table[n * smooth + m - 1]! : 0;
      const before = n > 0 ? beta[n]! * table[(n - 1) * smooth + m]! : 0;
      table[(n + 1) * smooth + m] = (here + lower - before) / beta[n + 1]!;
    }
  }
  let factor = (r * r) / radius;
  for (let m = 0; m < smooth; m++) {
    for (let n = m; n < smooth; n++) table[n * smooth + m] = table[n * smooth + m]! * factor;
    factor = -factor;
  }
  return table;
}

/** @param side 1 for the outer rim, -1 for the hole's */
export function rimPoints(
  side: number,
  radius: number,
  hole: number,
  scales: readonly number[],
  highest: number,
): Rim {
  const width = radius - hole;
  const farthest = Math.min(width, REACH * Math.max(...scales));
  const ends = [0];
  for (let end = 2 * Math.min(...scales); end < farthest / 1.5; end *= 3) ends.push(end);
  ends.push(farthest);
  const distance: number[] = [];
  const step: number[] = [];
  for (let e = 0; e + 1 < ends.length; e++) {
    const whole = ends[e + 1]! - ends[e]!;
    // a rule of POINTS follows a phase of PIECE_PHASE rad, and the layer beside it, to 1e-8
    const pieces = Math.max(1, Math.ceil((whole * highest) / PIECE_PHASE));
    for (let piece = 0; piece < pieces; piece++) {
      for (let i = 0; i < POINTS; i++) {
        distance.push(ends[e]! + (whole / pieces) * (piece + RULE.nodes[i]!));
        step.push((whole / pieces) * RULE.weights[i]!);
      }
    }
  }
  const r = Float64Array.from(distance, (d) => (side > 0 ? radius - d : hole + d));
  const weights = scales.map((scale) => {
    const last = distance.findIndex((d) => d > REACH * scale);
    const count = last < 0 ? distance.length : last;
    return Float64Array.from(
      { length: count },
      (_, j) => (step[j]! * r[j]! * r[j]! * Math.exp(-distance[j]! / scale)) / radius,
    );
  });
  return { r, weights, wave: new Float64Array(r.length) };
}

const POINTS = 16;
const PIECE_PHASE = 26;
const RULE = gaussLegendre(POINTS);
