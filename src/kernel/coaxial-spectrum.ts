import { besselMoment, MOMENT_TAIL_START, momentTailP, momentTailQ } from '../math/bessel-moment.ts';
import { MU0 } from './constants.ts';
import type { CoilWinding } from './disc/coil-source.ts';
import { beatWindow, type NodeSet } from './spectrum-nodes.ts';
import type { SpectrumTarget } from './winding-spectrum.ts';

/**
 * The source spectrum of several coaxial windings in series, at the nodes of a set: as for one winding
 * (winding-spectrum), with the amplitude
 *   a(k) = sum over windings of sense n S(k) e^{-k offset} (1 - e^{-kh}) / k,   q = pi mu0 a^2 dk,
 * and the free inductance with every pair's axial integral
 *   L = pi mu0 sum_wv int sense n S_w S_v A_wv dk,  A_wv = int int e^{-k |z - z'|} dz dz' over the two heights.
 *
 * In the averaged tail each edge r of a section contributes T(r) = sqrt(2x/pi) (Q - iP)(x) e^{ix}, x = k r, and products
 * of two windings become Re(D_w conj D_v) / 2 with D = T(outer) - T(inner): own shares and the slow beats between
 * edges, each beat faded as the nodes can follow it. An edge not yet in its tail counts with 1 - X(x).
 *
 * Source: Dodd & Deeds (1968), superposed; the axial integral by its second antiderivative (e^{-k|u|} + k|u|) / k^2.
 * Accuracy: 1e-5 relative to the same windings wound in one sense.
 */
export function fillCoaxial(
  windings: readonly CoilWinding[],
  count: number,
  outerRadius: number,
  nodes: NodeSet,
  out: SpectrumTarget,
  work: EdgePair,
): void {
  const { b, weight, window, stretch } = nodes;
  out.reserve(nodes.count);
  const { k: ks, q: qs } = out;
  const scale = Math.PI * MU0 * outerRadius ** 3;
  let free = 0;
  for (let i = 0; i < nodes.count; i++) {
    const k = b[i]! / outerRadius;
    const exact = window[i]!;
    let square = 0;
    let pairs = 0;
    for (let w = 0; w < count; w++) {
      const one = windings[w]!;
      const mine = turnDensity(one) * amplitude(one, k);
      for (let v = 0; v <= w; v++) {
        const other = windings[v]!;
        let product = 0;
        if (exact > 0) product += exact * moments(one, k) * moments(other, k);
        if (exact < 1) product += (1 - exact) * averageProduct(one, other, k, stretch, work);
        const twice = v === w ? 1 : 2;
        square += twice * mine * turnDensity(other) * amplitude(other, k) * product;
        pairs += twice * turnDensity(one) * turnDensity(other) * axial(one, other, k) * product;
      }
    }
    ks[i] = k;
    // amplitude and axial carry 1/k and 1/k^2; S carries 1/k^2 = r2^2 / b^2, in the weight
    qs[i] = scale * weight[i]! * square;
    free += scale * weight[i]! * pairs;
  }
  out.count = nodes.count;
  out.freeInductance = free + rest(windings, count, nodes.end / outerRadius);
}

/** Sense times turns per section area. */
function turnDensity(winding: CoilWinding): number {
  const { innerRadius, outerRadius, height, turns, sense } = winding;
  return (sense * turns) / ((outerRadius - innerRadius) * height);
}

/** e^{-k offset} (1 - e^{-kh}) / k */
function amplitude({ offset, height }: CoilWinding, k: number): number {
  return (-Math.expm1(-k * height) * Math.exp(-k * offset)) / k;
}

function moments({ innerRadius, outerRadius }: CoilWinding, k: number): number {
  return besselMoment(k * outerRadius) - besselMoment(k * innerRadius);
}

/** int int e^{-k |z - z'|} over the heights of two windings. */
function axial(one: CoilWinding, other: CoilWinding, k: number): number {
  const a = one.offset;
  const b = a + one.height;
  const c = other.offset;
  const d = c + other.height;
  if (a === c && b === d) {
    const x = k * one.height;
    const own = x < 0.02 ? x * x * (1 - x * (1 / 3 - x * (1 / 12 - x / 60))) : 2 * (x + Math.expm1(-x));
    return own / (k * k);
  }
  return second(a - d, k) + second(b - c, k) - second(a - c, k) - second(b - d, k);
}

/** Second antiderivative of e^{-k|u|}, less its value at zero: (e^{-k|u|} - 1 + k|u|) / k^2. */
function second(u: number, k: number): number {
  const x = k * Math.abs(u);
  const value = x < 0.02 ? (x * x * (1 - x * (1 / 3 - x * (1 / 12 - x / 60)))) / 2 : x + Math.expm1(-x);
  return value / (k * k);
}

/** Of a winding's two edges, outer and inner: see `edges`. */
interface Edges {
  slow: number;
  readonly radii: Float64Array;
  readonly size: Float64Array;
  readonly turn: Float64Array;
}

/** Working storage of `fillCoaxial`: the edges of a pair of windings. */
export interface EdgePair {
  readonly one: Edges;
  readonly other: Edges;
}

export function createEdgePair(): EdgePair {
  const edgesOf = () => ({
    slow: 0,
    radii: new Float64Array(2),
    size: new Float64Array(2),
    turn: new Float64Array(2),
  });
  return { one: edgesOf(), other: edgesOf() };
}

/** <D_w D_v> of two windings over the fast oscillation. */
function averageProduct(
  one: CoilWinding,
  other: CoilWinding,
  k: number,
  stretch: number,
  { one: oneEdges, other: otherEdges }: EdgePair,
): number {
  edges(one, k, oneEdges);
  edges(other, k, otherEdges);
  let sum = oneEdges.slow * otherEdges.slow;
  for (let e = 0; e < 2; e++) {
    for (let f = 0; f < 2; f++) {
      const size = oneEdges.size[e]! * otherEdges.size[f]!;
      if (size === 0) continue;
      const apart = k * (oneEdges.radii[e]! - otherEdges.radii[f]!);
      const beat = apart === 0 ? 1 : beatWindow(Math.abs(apart), stretch);
      if (beat > 0) sum += (beat / 2) * size * Math.cos(apart + oneEdges.turn[e]! - otherEdges.turn[f]!);
    }
  }
  return sum;
}

/** Signed size and phase (beyond k r) of T at a winding's two edges, and what has not yet begun to oscillate. */
function edges({ innerRadius, outerRadius }: CoilWinding, k: number, out: Edges): void {
  out.slow = 0;
  for (let e = 0; e < 2; e++) {
    const radius = e === 0 ? outerRadius : innerRadius;
    const sign = e === 0 ? 1 : -1;
    const x = k * radius;
    out.radii[e] = radius;
    if (x < MOMENT_TAIL_START) {
      out.slow += sign * (besselMoment(x) - 1);
      out.size[e] = 0;
      continue;
    }
    const p = momentTailP(x);
    const q = momentTailQ(x);
    out.size[e] = sign * Math.sqrt(((2 * x) / Math.PI) * (p * p + q * q));
    out.turn[e] = -Math.atan2(p, q);
  }
}

/** Free inductance beyond the last node, where only a winding's own mean is left: S^2 = (r1 + r2) / (pi k^3). */
function rest(windings: readonly CoilWinding[], count: number, end: number): number {
  let sum = 0;
  for (let w = 0; w < count; w++) {
    const one = windings[w]!;
    const density = turnDensity(one);
    const tail = one.height / (3 * end ** 3) - 1 / (4 * end ** 4);
    sum += density * density * ((2 * (one.innerRadius + one.outerRadius)) / Math.PI) * tail;
  }
  return Math.PI * MU0 * sum;
}
