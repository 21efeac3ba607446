import { sphericalBessel } from '../../math/spherical-bessel.ts';

/**
 * Current profiles over the thickness of a layered plate: in each layer the Legendre polynomials of its depth,
 * orthonormal in int chi_c chi_d dz, and what they do at a spatial frequency k.
 *
 * z runs from the coil-side face into the plate. With q = k t / 2 and T_cd = int int P_c P_d e^{-q |x - y|} dx dy,
 *   T_cd = -4 i_c(q) k_d(q)                                     for c > d of equal parity, 0 for unequal parity,
 *   T_00 = 4 (1 - e^{-q} i_0) / q,
 *   T_11 (1 + q^2/15) = 4/3 e^{-q} i_1 + 4 q/45 - 4 q^2/15 i_3 k_1,
 *   T_dd (1 + q^2 (a + b)) = 4 q (a + b) / (2d + 1) - 4 q^2 (a i_{d+2} k_d + b i_d k_{d-2}),
 *     a = 1 / ((2d + 1)(2d + 3)),  b = 1 / ((2d + 1)(2d - 1)),
 * with i_n, k_n the modified spherical Bessel functions: partial integration with (2d + 1) P_d =
 * (P_{d+1} - P_{d-1})' gives the diagonal (our own derivation; checked by quadrature in the tests).
 */
export class AxialBasis {
  /** Number of profiles. */
  readonly count: number;
  /** Layer of each profile. */
  readonly layer: readonly number[];
  /** Degree of each profile. */
  readonly degree: readonly number[];
  /** int chi_c e^{-kz} dz at the k last given to `transform`, m^{1/2}. */
  readonly moment: Float64Array;
  /** int int chi_c chi_d e^{-k|z - z'|} dz dz', row-major, at the k last given to `interact`, m. */
  readonly coupling: Float64Array;
  private readonly thicknesses: readonly number[];
  private readonly orders: readonly number[];
  /** e^{-q} i_n and e^{q} k_n of each layer, at `stride` n. */
  private readonly first: Float64Array[];
  private readonly second: Float64Array[];
  private readonly norm: Float64Array;

  /** @param thicknesses of the layers, m, coil side first; @param orders number of polynomials in each */
  constructor(thicknesses: readonly number[], orders: readonly number[]) {
    this.thicknesses = thicknesses;
    this.orders = orders;
    this.layer = orders.flatMap((order, l) => new Array<number>(order).fill(l));
    this.degree = orders.flatMap((order) => Array.from({ length: order }, (_, c) => c));
    this.count = this.layer.length;
    this.moment = new Float64Array(this.count);
    this.coupling = new Float64Array(this.count * this.count);
    this.first = orders.map((order) => new Float64Array(order + 2));
    this.second = orders.map((order) => new Float64Array(order + 2));
    this.norm = Float64Array.from(this.degree, (c, i) =>
      Math.sqrt((2 * c + 1) * thicknesses[this.layer[i]!]!),
    );
  }

  /** Fills `moment` for spatial frequency k > 0, 1/m. */
  transform(k: number): void {
    let index = 0;
    let face = 1;
    for (let l = 0; l < this.orders.length; l++) {
      const t = this.thicknesses[l]!;
      const order = this.orders[l]!;
      const first = this.first[l]!;
      sphericalBessel((k * t) / 2, order + 2, first, this.second[l]!);
      for (let c = 0; c < order; c++, index++) {
        const value = face * this.norm[index]! * first[c]!;
        this.moment[index] = c % 2 === 0 ? value : -value;
      }
      face *= Math.exp(-k * t);
    }
  }

  /** chi_c at a depth below the coil-side face, m; 0 in all layers but its own. */
  evaluate(depth: number, out: Float64Array): void {
    out.fill(0);
    let index = 0;
    let top = 0;
    for (let l = 0; l < this.orders.length; l++) {
      const t = this.thicknesses[l]!;
      const order = this.orders[l]!;
      const x = (2 * (depth - top)) / t - 1;
      top += t;
      if (x >= -1 && x < 1) {
        let before = 0;
        let here = 1;
        for (let c = 0; c < order; c++) {
          out[index + c] = here * Math.sqrt((2 * c + 1) / t);
          const next = ((2 * c + 1) * x * here - c * before) / (c + 1);
          before = here;
          here = next;
        }
        return;
      }
      index += order;
    }
  }

  /** Fills `moment` and `coupling` for spatial frequency k > 0, 1/m. */
  interact(k: number): void {
    this.transform(k);
    const { count, coupling, norm, layer, degree } = this;
    for (let i = 0; i < count; i++) {
      const l = layer[i]!;
      const c = degree[i]!;
      const first = this.first[l]!;
      const second = this.second[l]!;
      const q = (k * this.thicknesses[l]!) / 2;
      // within the layer; norm^2 = (2c + 1) t
      for (let j = i; j >= 0 && layer[j] === l; j--) {
        const d = degree[j]!;
        let value = 0;
        if (c === d) value = diagonal(c, q, first, second);
        else if ((c - d) % 2 === 0) value = -4 * first[c]! * second[d]!;
        value *= (norm[i]! * norm[j]!) / 4;
        coupling[i * count + j] = value;
        coupling[j * count + i] = value;
      }
      // with the layers above: separable
      let between = 1;
      for (let above = l - 1; above >= 0; above--) {
        const own = norm[i]! * first[c]! * (c % 2 === 0 ? 1 : -1) * between;
        for (let j = 0; j < count; j++) {
          if (layer[j] !== above) continue;
          const value = own * norm[j]! * this.first[above]![degree[j]!]!;
          coupling[i * count + j] = value;
          coupling[j * count + i] = value;
        }
        between *= Math.exp(-k * this.thicknesses[above]!);
      }
    }
  }
}

function diagonal(d: number, q: number, first: Float64Array, second: Float64Array): number {
  if (d === 0) return (4 * (1 - first[0]!)) / q;
  const q2 = q * q;
  if (d === 1) {
    return ((4 / 3) * first[1]! + (4 * q) / 45 - ((4 * q2) / 15) * first[3]! * second[1]!) / (1 + q2 / 15);
  }
  const a = 1 / ((2 * d + 1) * (2 * d + 3));
  const b = 1 / ((2 * d + 1) * (2 * d - 1));
  const outer = a * first[d + 2]! * second[d]! + b * first[d]! * second[d - 2]!;
  return ((4 * q * (a + b)) / (2 * d + 1) - 4 * q2 * outer) / (1 + q2 * (a + b));
}
