import type { GapCoupling } from './gap-coupling.ts';

/**
 * A coil over a plate as a function of the gap, from values at few gaps:
 *   ln(-Re dL), ln(-Im dL) = polynomials in s,  s in [-1, 1] linear in y = ln(gap + shift),
 * through value and slope at each of the gaps (Hermite). Both parts are negative over a plate that conducts and does not
 * attract. Derivatives by the gap are those of the polynomials.
 *
 * Accuracy: with four gaps over a threefold range 1e-7 in dL and 1e-5 in the slope, with five over a tenfold one 1e-5 and
 * 1e-3, at the 95th percentile of 400 random rigs; `NearRigs` checks each.
 */
export class NearCoupling implements GapCoupling {
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  jerkRe = 0;
  nearest = 0;
  farthest = 0;
  /** The gaps at which values and slopes are wanted, m. */
  readonly gaps: number[] = [];
  /** Coefficients by power of s, the real part's and behind them the imaginary part's. */
  readonly coefficients = new Float64Array(4 * MOST_GAPS);
  private shift = 0;
  private middle = 0;
  private half = 1;
  private hermite: Float64Array = new Float64Array(0);

  /** @param gaps how many, 2 to MOST_GAPS */
  span(nearest: number, farthest: number, gaps: number): void {
    this.nearest = nearest;
    this.farthest = farthest;
    this.shift = SHIFT * nearest;
    const from = Math.log(nearest + this.shift);
    const to = Math.log(farthest + this.shift);
    this.middle = (from + to) / 2;
    this.half = (to - from) / 2;
    this.hermite = HERMITE[gaps]!;
    this.gaps.length = 0;
    for (const s of nodes(gaps)) this.gaps.push(this.gapAt(s));
  }

  /** The gap that stands at s in [-1, 1], m. */
  gapAt(s: number): number {
    return Math.exp(this.middle + this.half * s) - this.shift;
  }

  /** How many coefficients there are of both parts together. */
  get size(): number {
    return 4 * this.gaps.length;
  }

  /** Coefficients of a coupling, to `out[at]` and on; false where it has none. */
  describe(exact: GapCoupling, out: Float64Array, at: number): boolean {
    const { gaps, hermite, shift, half } = this;
    const count = 2 * gaps.length;
    out.fill(0, at, at + 2 * count);
    for (let g = 0; g < gaps.length; g++) {
      exact.evaluate(gaps[g]!);
      const { inductanceRe: re, inductanceIm: im } = exact;
      if (!(re < 0 && im < 0)) return false;
      // dy/ds over dy/dgap
      const stretch = half * (gaps[g]! + shift);
      const valueRe = Math.log(-re);
      const valueIm = Math.log(-im);
      const slopeRe = (exact.slopeRe / re) * stretch;
      const slopeIm = (exact.slopeIm / im) * stretch;
      for (let k = 0; k < count; k++) {
        const ofValue = hermite[k * count + 2 * g]!;
        const ofSlope = hermite[k * count + 2 * g + 1]!;
        out[at + k] = out[at + k]! + ofValue * valueRe + ofSlope * slopeRe;
        out[at + count + k] = out[at + count + k]! + ofValue * valueIm + ofSlope * slopeIm;
      }
    }
    return true;
  }

  /** Where in [-1, 1] a gap stands. */
  place(gap: number): number {
    return (Math.log(gap + this.shift) - this.middle) / this.half;
  }

  evaluateLift(gap: number): void {
    const { coefficients, half } = this;
    const s = this.place(gap);
    let p = 0;
    let p1 = 0;
    let p2 = 0;
    let p3 = 0;
    for (let k = 2 * this.gaps.length - 1; k >= 0; k--) {
      p3 = p3 * s + p2;
      p2 = p2 * s + p1;
      p1 = p1 * s + p;
      p = p * s + coefficients[k]!;
    }
    // by y, p2 and p3 being halves and sixths of the derivatives
    const d1 = p1 / half;
    const d2 = (2 * p2) / (half * half);
    const d3 = (6 * p3) / (half * half * half);
    const per = 1 / (gap + this.shift);
    const a1 = d1 * per;
    const a2 = (d2 - d1) * per * per;
    const a3 = (d3 - 3 * d2 + 2 * d1) * per * per * per;
    const value = -Math.exp(p);
    this.inductanceRe = value;
    this.slopeRe = value * a1;
    this.curvatureRe = value * (a2 + a1 * a1);
    this.jerkRe = value * (a3 + 3 * a1 * a2 + a1 * a1 * a1);
  }

  evaluate(gap: number): void {
    this.evaluateLift(gap);
    const { coefficients } = this;
    const count = 2 * this.gaps.length;
    const s = this.place(gap);
    let p = 0;
    let p1 = 0;
    for (let k = count - 1; k >= 0; k--) {
      p1 = p1 * s + p;
      p = p * s + coefficients[count + k]!;
    }
    this.inductanceIm = -Math.exp(p);
    this.slopeIm = (this.inductanceIm * p1) / (this.half * (gap + this.shift));
  }
}

export const MOST_GAPS = 6;

/** How far the logarithm is shifted, in nearest gaps: of 0 to 2 the best over random rigs. */
const SHIFT = 2;

/** Chebyshev points, stretched to both ends. */
export function nodes(count: number): number[] {
  const end = Math.cos(Math.PI / (2 * count));
  return Array.from({ length: count }, (_, j) => -Math.cos((Math.PI * (j + 0.5)) / count) / end);
}

/** By count of gaps: from values and slopes at the nodes, in turn, to coefficients of 1, s, s2, ..., a row a coefficient. */
const HERMITE: readonly Float64Array[] = Array.from({ length: MOST_GAPS + 1 }, (_, count) =>
  count < 2 ? new Float64Array(0) : hermiteOf(nodes(count)),
);

/** H_j = (1 - 2 l_j'(s_j) (s - s_j)) l_j^2 of the value, (s - s_j) l_j^2 of the slope, l_j Lagrange's polynomials. */
function hermiteOf(at: readonly number[]): Float64Array {
  const size = 2 * at.length;
  const matrix = new Float64Array(size * size);
  at.forEach((own, j) => {
    let square = [1];
    let steep = 0;
    at.forEach((other, i) => {
      if (i === j) return;
      steep += 1 / (own - other);
      const factor = [-other / (own - other), 1 / (own - other)];
      square = times(times(square, factor), factor);
    });
    times(square, [1 + 2 * steep * own, -2 * steep]).forEach((c, k) => {
      matrix[k * size + 2 * j] = c;
    });
    times(square, [-own, 1]).forEach((c, k) => {
      matrix[k * size + 2 * j + 1] = c;
    });
  });
  return matrix;
}

/** Lagrange's polynomials of the nodes: from values there to coefficients of 1, s, s2, ..., a row a coefficient. */
export function lagrangeOf(at: readonly number[]): Float64Array {
  const size = at.length;
  const matrix = new Float64Array(size * size);
  at.forEach((own, j) => {
    let product = [1];
    at.forEach((other, i) => {
      if (i !== j) product = times(product, [-other / (own - other), 1 / (own - other)]);
    });
    product.forEach((c, k) => {
      matrix[k * size + j] = c;
    });
  });
  return matrix;
}

/** Product of polynomials. */
export function times(a: readonly number[], b: readonly number[]): number[] {
  const out: number[] = new Array(a.length + b.length - 1).fill(0);
  a.forEach((x, i) => {
    b.forEach((y, j) => {
      out[i + j]! += x * y;
    });
  });
  return out;
}
