import { besselSequence } from '../../math/bessel-sequence.ts';
import { gaussLegendre } from '../../math/gauss-legendre.ts';
import { type CoilWinding, coilSource } from '../disc/coil-source.ts';

/** Polynomials over the radius of a magnetic disc. */
export const DISC_ORDERS = 16;

/**
 * What a coil over a flat disc is without the disc's metal, for MagneticDisc: the coil's source on nodes in k, and on them and
 * in themselves the disc's profiles rho P_n^(1,0)(1 - 2 rho^2), whose Hankel transforms are J_{2n+2}(kR)/(kR).
 *   pair sums  int (1 + e^{-q t/R})/2 f_m f_n dq  and  int N f_m f_n q dq,  N = 1 - (1 - e^{-x})/x at x = q t/R.
 * Source: H. Bateman, Tables of Integral Transforms II (1954), 8.11, for the transforms (from memory).
 */
export class DiscGeometry {
  radius = 0;
  thickness = 0;
  /** Nodes of the coil's field. */
  count = 0;
  k = new Float64Array(256);
  dk = new Float64Array(256);
  /** a(k) dk: see coil-source. */
  source = new Float64Array(256);
  /** DISC_ORDERS a node. */
  profile = new Float64Array(256 * DISC_ORDERS);
  /** Square, DISC_ORDERS wide. */
  readonly even = new Float64Array(DISC_ORDERS * DISC_ORDERS);
  readonly odd = new Float64Array(DISC_ORDERS * DISC_ORDERS);
  private readonly orders = new Float64Array(2 * DISC_ORDERS + 1);
  /** Made when first needed: most rigs have no disc of steel. */
  private own: Profiles | null = null;
  private shape = Number.NaN;

  /** @param outerRadius of the coil, m */
  prepare(windings: readonly CoilWinding[], outerRadius: number, radius: number, thickness: number): void {
    this.radius = radius;
    this.thickness = thickness;
    this.layNodes(outerRadius, radius);
    const { k, dk, source, profile, orders, count } = this;
    for (let i = 0; i < count; i++) {
      source[i] = coilSource(windings, k[i]!) * dk[i]!;
      const q = k[i]! * radius;
      besselSequence(q, 2 * DISC_ORDERS + 1, orders);
      for (let n = 0; n < DISC_ORDERS; n++) profile[i * DISC_ORDERS + n] = orders[2 * n + 2]! / q;
    }
    this.fillPairs(thickness / radius);
  }

  private layNodes(outerRadius: number, radius: number): void {
    const end = DETAIL / outerRadius;
    const panels = Math.ceil((end * (outerRadius + radius)) / TURN);
    const { nodes, weights } = RULE;
    const count = panels * nodes.length;
    if (this.k.length < count) {
      for (const name of ['k', 'dk', 'source'] as const) this[name] = new Float64Array(2 * count);
      this.profile = new Float64Array(2 * count * DISC_ORDERS);
    }
    const step = end / panels;
    for (let p = 0; p < panels; p++) {
      for (let i = 0; i < nodes.length; i++) {
        this.k[p * nodes.length + i] = (p + nodes[i]!) * step;
        this.dk[p * nodes.length + i] = weights[i]! * step;
      }
    }
    this.count = count;
  }

  private fillPairs(shape: number): void {
    if (shape === this.shape) return;
    this.shape = shape;
    this.own ??= ownProfiles();
    const { even, odd, own } = this;
    even.fill(0);
    odd.fill(0);
    for (let i = 0; i < own.q.length; i++) {
      const x = own.q[i]! * shape;
      const fall = -Math.expm1(-x);
      const e = own.weight[i]! * (1 - fall / 2);
      const o = own.weight[i]! * own.q[i]! * (x < 1e-4 ? x / 2 : 1 - fall / x);
      for (let m = 0; m < DISC_ORDERS; m++) {
        const f = own.profile[i * DISC_ORDERS + m]!;
        for (let n = m; n < DISC_ORDERS; n++) {
          const both = f * own.profile[i * DISC_ORDERS + n]!;
          even[m * DISC_ORDERS + n]! += e * both;
          odd[m * DISC_ORDERS + n]! += o * both;
        }
      }
    }
    for (let m = 0; m < DISC_ORDERS; m++) {
      for (let n = 0; n < m; n++) {
        even[m * DISC_ORDERS + n] = even[n * DISC_ORDERS + m]!;
        odd[m * DISC_ORDERS + n] = odd[n * DISC_ORDERS + m]!;
      }
    }
  }
}

/** Detail of a coil is followed up to here over its outer radius; the disc's rim hardly feels what is finer. */
const DETAIL = 40;
/** Radians of k (r2 + R) a panel. */
const TURN = 3;
const RULE = gaussLegendre(4);
/** Pair sums go to this k R; what is left falls as its square. */
const END = 200;
const PANEL = 2;

interface Profiles {
  readonly q: Float64Array;
  readonly weight: Float64Array;
  readonly profile: Float64Array;
}

function ownProfiles(): Profiles {
  const count = (END / PANEL) * RULE.nodes.length;
  const q = new Float64Array(count);
  const weight = new Float64Array(count);
  const profile = new Float64Array(count * DISC_ORDERS);
  const orders = new Float64Array(2 * DISC_ORDERS + 1);
  for (let i = 0; i < count; i++) {
    const panel = Math.floor(i / RULE.nodes.length);
    q[i] = PANEL * (panel + RULE.nodes[i % RULE.nodes.length]!);
    weight[i] = PANEL * RULE.weights[i % RULE.nodes.length]!;
    besselSequence(q[i]!, 2 * DISC_ORDERS + 1, orders);
    for (let n = 0; n < DISC_ORDERS; n++) profile[i * DISC_ORDERS + n] = orders[2 * n + 2]! / q[i]!;
  }
  return { q, weight, profile };
}
