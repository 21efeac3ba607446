import { type BesselPair, besselJ01, J01_TABLE_END } from '../../math/bessel-j01.ts';
import { besselSequence } from '../../math/bessel-sequence.ts';
import { gaussRule } from '../../math/gauss-rule.ts';

/**
 * Current patterns of one azimuthal order m over a disc: K = curl(psi_n(r) cos(m phi) z), with psi zero at the rim
 * and constant (for m > 0 zero) at a central hole, orthonormal in int (psi'^2 + m^2 psi^2 / r^2) r dr, so that a
 * uniform sheet's resistance is diagonal. `hankel` holds f_n(k) = k int psi_n J_m(kr) r dr.
 *
 *   No hole: psi_n ~ (r/R)^m (1 - r^2/R^2) P_n^(1,m)(2 r^2/R^2 - 1), whose transform is closed,
 *     f_n(k) = (-1)^n sqrt(2 mu) R J_mu(kR) / (kR),  mu = m + 2n + 2.
 *   Hole of radius a: for m > 0 the same with the factor 1 - (a/r)^2m (what a uniform field does at a hole) and
 *     Legendre polynomials of r^2, for m = 0 the current (r/R) P_n itself; made orthonormal, and transformed, by a
 *     Gauss rule graded toward both rims.
 *
 * Sources: M. Born and E. Wolf, Principles of Optics, app. VII, for the radial polynomials (from memory); the
 * transform is the Weber-Schafheitlin integral DLMF 10.22.56-57. Both are checked by quadrature in the tests.
 */
export class AzimuthalBasis {
  readonly order: number;
  readonly count: number;
  /** f_n at the k last given to `transform`, m. */
  readonly hankel: Float64Array;
  private readonly radius: number;
  private readonly hole: number;
  private readonly bessel: Float64Array;
  private readonly pair: BesselPair = { j0: 0, j1: 0 };
  private readonly points: Points | null;
  private readonly kept = new Map<number, Float64Array>();

  /** @param highest largest k that will be needed, 1/m; radius and hole in m */
  constructor(order: number, radius: number, hole: number, count: number, highest: number) {
    this.order = order;
    this.count = count;
    this.radius = radius;
    this.hole = hole;
    this.hankel = new Float64Array(count);
    this.bessel = new Float64Array(order + 2 * count + 1);
    this.points = hole > 0 ? this.tabulate(highest) : null;
  }

  /** Fills `hankel` for 0 < k <= highest, 1/m. With a hole, transforms are kept: each k is needed twice. */
  transform(k: number): void {
    const { hankel, order, count, radius, bessel, pair, points } = this;
    if (points === null) {
      const x = k * radius;
      besselSequence(x, order + 2 * count + 1, bessel);
      for (let n = 0; n < count; n++) {
        const mu = order + 2 * n + 2;
        const value = (Math.sqrt(2 * mu) * radius * bessel[mu]!) / x;
        hankel[n] = n % 2 === 0 ? value : -value;
      }
      return;
    }
    const { size, r, table } = points;
    const known = this.kept.get(k);
    if (known) {
      hankel.set(known);
      return;
    }
    // m = 0: f = int -psi' J1 r dr
    const kind = order === 0 ? 1 : order;
    const factor = order === 0 ? 1 : k;
    hankel.fill(0);
    for (let j = 0; j < size; j++) {
      const value = factor * besselAt(kind, k * r[j]!, bessel, pair);
      const row = j * count;
      for (let n = 0; n < count; n++) hankel[n] = hankel[n]! + table[row + n]! * value;
    }
    this.kept.set(k, hankel.slice());
  }

  /** Orthonormal patterns at Gauss points, times r and the weight. */
  private tabulate(highest: number): Points {
    const { radius, hole, count, order } = this;
    const { r, weight } = gradedPoints(hole, radius, count, highest);
    const size = r.length;
    // one pattern after the other: gradient and m psi / r, each times the root of its weight
    const slope = new Float64Array(count * size);
    const turning = new Float64Array(count * size);
    for (let j = 0; j < size; j++) {
      this.raw(r[j]!, turning, slope, j, size);
      const root = Math.sqrt(weight[j]! * r[j]!);
      for (let n = 0; n < count; n++) {
        slope[n * size + j] = slope[n * size + j]! * root;
        turning[n * size + j] = (turning[n * size + j]! * root * order) / r[j]!;
      }
    }
    orthonormalise(slope, turning, count, size);
    const table = new Float64Array(size * count);
    for (let n = 0; n < count; n++) {
      const source = order === 0 ? slope : turning;
      for (let j = 0; j < size; j++) {
        const root = Math.sqrt(weight[j]! * r[j]!);
        const factor = order === 0 ? -root : (root * r[j]!) / order;
        table[j * count + n] = source[n * size + j]! * factor;
      }
    }
    return { size, r, table };
  }

  /** Patterns before they are made orthonormal; for m = 0 only the slope counts. */
  private raw(r: number, value: Float64Array, slope: Float64Array, j: number, size: number): void {
    const { radius, hole, count, order } = this;
    const low = (hole / radius) ** 2;
    const u = (r / radius) ** 2;
    const x = (2 * (u - low)) / (1 - low) - 1;
    // d x / d r
    const stretch = (4 * r) / (radius * radius * (1 - low));
    const power = (r / radius) ** order;
    const pierced = 1 - (hole / r) ** (2 * order);
    const shape = power * (1 - u) * pierced;
    const shapeSlope =
      (order / r) * shape -
      power * pierced * ((2 * r) / (radius * radius)) +
      (power * (1 - u) * 2 * order * (hole / r) ** (2 * order)) / r;
    let before = 0;
    let here = 1;
    let slopeBefore = 0;
    let slopeHere = 0;
    for (let n = 0; n < count; n++) {
      value[n * size + j] = order === 0 ? 0 : shape * here;
      slope[n * size + j] =
        order === 0 ? (r / radius) * here : shapeSlope * here + shape * slopeHere * stretch;
      const next = ((2 * n + 1) * x * here - n * before) / (n + 1);
      const slopeNext = ((2 * n + 1) * (here + x * slopeHere) - n * slopeBefore) / (n + 1);
      before = here;
      here = next;
      slopeBefore = slopeHere;
      slopeHere = slopeNext;
    }
  }
}

/** Gram and Schmidt, twice is enough (W. Kahan in B. N. Parlett, The Symmetric Eigenvalue Problem, 6.9). */
function orthonormalise(a: Float64Array, b: Float64Array, count: number, size: number): void {
  const dot = (i: number, n: number) => {
    let sum = 0;
    for (let p = i * size, q = n * size, end = p + size; p < end; p++, q++) {
      sum += a[p]! * a[q]! + b[p]! * b[q]!;
    }
    return sum;
  };
  for (let n = 0; n < count; n++) {
    for (let pass = 0; pass < 2; pass++) {
      for (let i = 0; i < n; i++) {
        const projection = dot(i, n);
        for (let p = i * size, q = n * size, end = p + size; p < end; p++, q++) {
          a[q] = a[q]! - projection * a[p]!;
          b[q] = b[q]! - projection * b[p]!;
        }
      }
    }
    const norm = 1 / Math.sqrt(dot(n, n));
    for (let q = n * size, end = q + size; q < end; q++) {
      a[q] = a[q]! * norm;
      b[q] = b[q]! * norm;
    }
  }
}

/** J_n(x), n >= 1: by the recurrence upward from a table where that is stable, else by the one downward. */
function besselAt(n: number, x: number, work: Float64Array, pair: BesselPair): number {
  if ((n > 1 && x < n) || x >= J01_TABLE_END) {
    besselSequence(x, n + 1, work);
    return work[n]!;
  }
  besselJ01(x, pair);
  let before = pair.j0;
  let here = pair.j1;
  for (let i = 1; i < n; i++) {
    const next = ((2 * i) / x) * here - before;
    before = here;
    here = next;
  }
  return here;
}

interface Points {
  readonly size: number;
  readonly r: Float64Array;
  /** psi_n r weight (m = 0: -psi_n' r weight), a row a point. */
  readonly table: Float64Array;
}

/** Gauss points over [hole, radius] in panels that shrink toward both rims and follow J_m(kr) up to `highest`. */
function gradedPoints(
  hole: number,
  radius: number,
  count: number,
  highest: number,
): { r: Float64Array; weight: Float64Array } {
  const width = radius - hole;
  const edges = [hole, radius];
  for (let b = width / count ** 2; b < width / 2; b *= 4) edges.push(radius - b);
  // a small hole bends the currents within its own size
  for (let b = Math.min(hole, width / count ** 2); b < width / 2; b *= 4) edges.push(hole + b);
  edges.sort((a, b) => a - b);
  const r: number[] = [];
  const weight: number[] = [];
  for (let e = 0; e + 1 < edges.length; e++) {
    const length = edges[e + 1]! - edges[e]!;
    const rule = gaussRule(6 + count * Math.sqrt(length / width) + (length * highest) / 2.5);
    for (let i = 0; i < rule.nodes.length; i++) {
      r.push(edges[e]! + length * rule.nodes[i]!);
      weight.push(length * rule.weights[i]!);
    }
  }
  return { r: Float64Array.from(r), weight: Float64Array.from(weight) };
}
