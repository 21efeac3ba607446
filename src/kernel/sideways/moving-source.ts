import { type BesselPair, besselJ01, J01_TABLE_END } from '../../math/bessel-j01.ts';
import { besselSequence } from '../../math/bessel-sequence.ts';
import { type CoilWinding, momentOf } from '../disc/coil-source.ts';

/**
 * A coil's source amplitude at a spatial frequency, and how it changes when the coil is turned.
 *
 * Below the coil its field has the potential Psi = (mu0/2) int sum_m alpha_m(k) J_m(kr) cos(m phi) e^{kz} dk. At rest
 * only m = 0 is there, alpha_0 = a(k) (see coil-source). With gamma(k) = a(k) e^{ks}, the same referred to a point on
 * the axis a distance s above the coil's plate-side face, a turn theta about that point (axis y) and a shift x are
 * exponentials of the generators of rotation and translation in Fourier space, i d/dkx (k .) and -i kx. So
 *   alpha_1: x  k gamma,       theta  -k gamma'
 *   alpha_0: x^2/2  -k^2 gamma / 2,   theta^2/2  -k (gamma' + k gamma'' / 2),   x theta  k^2 gamma' / 2
 * and a finite shift d gives alpha_m = (2 - delta_m0) J_m(kd) gamma: Graf's addition theorem.
 * Sources: J. D. Jackson, Classical Electrodynamics, 5.4, for B = grad Psi; DLMF 10.23.7 for Graf's theorem; the rest
 * is our own derivation, checked by loops in three dimensions in the tests.
 */
export class MovingSource {
  /** a(k) and the first two derivatives of a(k) e^{ks}, times e^{-ks}, as last evaluated. */
  value = 0;
  slope = 0;
  curvature = 0;
  private readonly atEdge: EdgeMoments = { moment: 0, first: 0, second: 0 };
  private readonly pair: BesselPair = { j0: 0, j1: 0 };
  private readonly sequence = new Float64Array(3);
  private readonly axial = new Float64Array(3);

  /**
   * @param k 1/m, > 0
   * @param above s, m: from the coil's plate-side face to the point it is turned about, away from the plate
   * Accuracy: 1e-11 in the value, 1e-5 of what the coil's size makes of it in the derivatives.
   */
  evaluate(windings: readonly CoilWinding[], k: number, above: number): void {
    const { atEdge, axial } = this;
    this.value = 0;
    this.slope = 0;
    this.curvature = 0;
    for (const { innerRadius, outerRadius, height, offset, turns, sense } of windings) {
      const density = (sense * turns) / ((outerRadius - innerRadius) * height);
      this.edge(k, outerRadius);
      const { moment, first, second } = atEdge;
      this.edge(k, innerRadius);
      const s0 = (moment - atEdge.moment) / (k * k);
      const s1 = (first - atEdge.first - 2 * s0) / k;
      const s2 = (second - atEdge.second + 2 * (s0 / k - s1)) / k;
      // int (s - z)^p e^{-kz} dz over the winding's height, from those about its own face
      axialMoments(k, height, axial);
      const face = Math.exp(-k * offset) * density;
      const arm = above - offset;
      const h0 = face * axial[0]!;
      const h1 = face * (arm * axial[0]! - axial[1]!);
      const h2 = face * (arm * arm * axial[0]! - 2 * arm * axial[1]! + axial[2]!);
      this.value += s0 * h0;
      this.slope += s1 * h0 + s0 * h1;
      this.curvature += s2 * h0 + 2 * s1 * h1 + s0 * h2;
    }
  }

  private edge(k: number, r: number): void {
    const { atEdge, pair, sequence } = this;
    const x = k * r;
    let j1: number;
    let j2: number;
    if (x < J01_TABLE_END) {
      besselJ01(x, pair);
      j1 = x < 0.5 ? smallJ1(x) : pair.j1;
      j2 = x < 0.5 ? smallJ2(x) : (2 * pair.j1) / x - pair.j0;
    } else {
      besselSequence(x, 3, sequence);
      j1 = sequence[1]!;
      j2 = sequence[2]!;
    }
    atEdge.moment = momentOf(x);
    atEdge.first = r * r * j1;
    atEdge.second = -r * r * r * j2;
  }
}

/** alpha_m of a coil shifted by d, over gamma, and its derivative by d, as last evaluated. */
export class ShiftedAmplitude {
  value = 0;
  slope = 0;
  private work = new Float64Array(16);

  /** Graf's theorem: (2 - delta_m0) J_m(kd), for k in 1/m and d > 0 in m. */
  evaluate(m: number, k: number, d: number): void {
    const x = k * d;
    if (this.work.length < m + 2) this.work = new Float64Array(2 * m + 2);
    const { work } = this;
    besselSequence(x, m + 2, work);
    const factor = m === 0 ? 1 : 2;
    this.value = factor * work[m]!;
    // J_m' = m J_m / x - J_{m+1}
    this.slope = factor * k * ((m * work[m]!) / x - work[m + 1]!);
  }
}

/** Of one edge r: X(kr), r^2 J1(kr) and its derivative by k with the first quotient's, -r^3 J2(kr). */
interface EdgeMoments {
  moment: number;
  first: number;
  second: number;
}

/** Power series (DLMF 10.2.2), 1e-10 relative below 0.5, where the table's error would count. */
function smallJ1(x: number): number {
  const y = (x * x) / 4;
  return (x / 2) * (1 - (y / 2) * (1 - (y / 6) * (1 - (y / 12) * (1 - y / 20))));
}

function smallJ2(x: number): number {
  const y = (x * x) / 4;
  return (y / 2) * (1 - (y / 3) * (1 - (y / 8) * (1 - (y / 15) * (1 - y / 24))));
}

/** int_0^h z^p e^{-kz} dz for p = 0, 1, 2. */
function axialMoments(k: number, h: number, axial: Float64Array): void {
  const x = k * h;
  if (x < 1e-3) {
    axial[0] = h * (1 - x / 2);
    axial[1] = h * h * (1 / 2 - x / 3);
    axial[2] = h * h * h * (1 / 3 - x / 4);
    return;
  }
  const end = Math.exp(-x);
  axial[0] = -Math.expm1(-x) / k;
  axial[1] = (axial[0] - h * end) / k;
  axial[2] = (2 * axial[1] - h * h * end) / k;
}
