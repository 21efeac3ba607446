import { type CoilWinding, coilSource } from '../disc/coil-source.ts';
import type { DiscModes } from '../disc/disc-modes.ts';

/**
 * The modes of a plate that a coil excites, and how strongly at each gap: s_n(gap), H^(1/2), and its derivative, so that the
 * force is the derivative of the same function that couples. Of a disc below, of a wide plate in wide-modes.
 */
export interface CoupledModes {
  readonly count: number;
  /** lambda, 1/s. */
  readonly rates: Float64Array;
  /** Gaps between these may be evaluated, m. */
  readonly nearest: number;
  readonly farthest: number;
  /** s and ds/dgap at the gap last evaluated. */
  readonly coupling: Float64Array;
  readonly slope: Float64Array;
  evaluate(gap: number): void;
}

/** Pieces an e-fold of the gap. */
const PIECES = 40;
const LEAST = 1e-6;

/**
 * The modes of a disc: s_n as cubic Hermite pieces in ln(gap) through exact values and slopes. Modes that answer less than
 * LEAST of the whole at the nearest gap are left out.
 * Accuracy: 1e-6 of the largest s in s, 1e-4 in its slope (tests).
 *
 * @param omega rad/s of the supply, by which the answer of a mode is judged
 * @param nearest, farthest gaps that will be needed, m
 */
export function createCoupledModes(
  modes: DiscModes,
  windings: readonly CoilWinding[],
  omega: number,
  nearest: number,
  farthest: number,
): CoupledModes {
  const { nodes, excitation } = modes;
  const source = Float64Array.from(nodes.k, (k) => coilSource(windings, k));
  const kept = strongest(couplingsAt(modes, source, nearest), modes.rates, omega);
  const count = kept.length;
  const span = Math.log(farthest / nearest);
  const pieces = Math.max(2, Math.ceil(PIECES * span));
  const width = span / pieces;
  const origin = Math.log(nearest);
  // values and slopes by ln(gap) at the edges of the pieces, and coefficients of t in [0, 1], four a mode, piece after piece:
  // each made when a gap first needs it, as most runs see a third of them
  const value = new Float64Array((pieces + 1) * count).fill(Number.NaN);
  const slopes = new Float64Array((pieces + 1) * count);
  const table = new Float64Array(4 * pieces * count).fill(Number.NaN);
  const field = new Float64Array(nodes.count);
  const fillEdge = (p: number): void => {
    if (!Number.isNaN(value[p * count]!)) return;
    const gap = Math.exp(origin + p * width);
    for (let q = 0; q < nodes.count; q++) field[q] = source[q]! * Math.exp(-nodes.k[q]! * gap);
    for (let n = 0; n < count; n++) {
      const row = kept[n]! * nodes.count;
      let s = 0;
      let d = 0;
      for (let q = 0; q < nodes.count; q++) {
        const part = excitation[row + q]! * field[q]!;
        s += part;
        d -= nodes.k[q]! * part;
      }
      value[p * count + n] = s;
      slopes[p * count + n] = d * gap * width;
    }
  };
  const fillPiece = (p: number): void => {
    fillEdge(p);
    fillEdge(p + 1);
    for (let n = 0; n < count; n++) {
      const a = p * count + n;
      const b = a + count;
      const rise = value[b]! - value[a]!;
      const at = 4 * a;
      table[at] = value[a]!;
      table[at + 1] = slopes[a]!;
      table[at + 2] = 3 * rise - 2 * slopes[a]! - slopes[b]!;
      table[at + 3] = slopes[a]! + slopes[b]! - 2 * rise;
    }
  };
  const coupling = new Float64Array(count);
  const slope = new Float64Array(count);
  return {
    count,
    rates: Float64Array.from(kept, (n) => modes.rates[n]!),
    nearest,
    farthest,
    coupling,
    slope,
    evaluate(gap) {
      const x = (Math.log(gap) - origin) / width;
      const piece = Math.max(0, Math.min(pieces - 1, Math.floor(x)));
      const t = x - piece;
      const perGap = 1 / (width * gap);
      let at = 4 * piece * count;
      if (Number.isNaN(table[at]!)) fillPiece(piece);
      for (let n = 0; n < count; n++, at += 4) {
        const c1 = table[at + 1]!;
        const c2 = table[at + 2]!;
        const c3 = table[at + 3]!;
        coupling[n] = table[at]! + t * (c1 + t * (c2 + t * c3));
        slope[n] = (c1 + t * (2 * c2 + 3 * t * c3)) * perGap;
      }
    },
  };
}

/** Of each mode, s at the nearest gap. */
function couplingsAt(modes: DiscModes, source: Float64Array, nearest: number): Float64Array {
  const { nodes, excitation, count } = modes;
  return Float64Array.from({ length: count }, (_, n) => {
    let s = 0;
    for (let q = 0; q < nodes.count; q++) {
      s += excitation[n * nodes.count + q]! * source[q]! * Math.exp(-nodes.k[q]! * nearest);
    }
    return s;
  });
}

/** Indices of the modes that answer most, rising: all but a share LEAST of what they answer together. */
export function strongest(couplings: ArrayLike<number>, rates: ArrayLike<number>, omega: number): number[] {
  const { length } = couplings;
  const answers = Float64Array.from(
    { length },
    (_, n) => (couplings[n]! ** 2 * omega) / Math.hypot(omega, rates[n]!),
  );
  const order = Array.from(answers.keys()).sort((a, b) => answers[a]! - answers[b]!);
  const total = answers.reduce((sum, answer) => sum + answer, 0);
  let rest = 0;
  const dropped = new Set<number>();
  for (const n of order) {
    rest += answers[n]!;
    if (rest > LEAST * total) break;
    dropped.add(n);
  }
  return Array.from({ length }, (_, n) => n).filter((n) => !dropped.has(n));
}
