import { MU0 } from '../constants.ts';

/**
 * Flux density of a metal that saturates, T, at a field in A/m:
 *   B = mu0 H + (2 Js / pi) atan(pi mu0 (mu - 1) H / (2 Js)),
 * mu the relative permeability at H = 0, Js the magnetisation that is never exceeded, T. Without hysteresis.
 *
 * Domain: H of either sign. For fields from the knee of the curve up, where pans are; the bend that real steel has
 * at a few A/m (permeability rising first) is left out.
 * Source: a usual two-parameter curve of electrical engineering (from memory).
 */
export function fluxDensity(field: number, permeability: number, saturation: number): number {
  const slope = MU0 * (permeability - 1);
  const scale = (2 * saturation) / Math.PI;
  return MU0 * field + scale * Math.atan((slope * field) / scale);
}

export interface MagnetisationPoint {
  /** A/m and T, both above 0. */
  readonly field: number;
  readonly flux: number;
}

export interface FittedCurve {
  readonly permeability: number;
  readonly saturation: number;
  /** Largest difference of the curve from a point, over that point's flux density. */
  readonly misfit: number;
}

/**
 * The curve of `fluxDensity` nearest to measured points: least squares of ln B, so that points weigh by their relative errors.
 * Gauss-Newton in ln(mu - 1) and ln Js with steps halved until they help.
 */
export function fitMagnetisation(points: readonly MagnetisationPoint[]): FittedCurve {
  const flux = points.map((point) => point.flux);
  let p = Math.log(Math.max(2, ...points.map((point) => point.flux / (MU0 * point.field))) - 1);
  let q = Math.log(Math.max(...flux));
  let cost = costOf(points, p, q);
  for (let round = 0; round < ROUNDS; round++) {
    // normal equations by differences
    let [pp, pq, qq, bp, bq] = [1e-9, 0, 1e-9, 0, 0];
    for (const point of points) {
      const r = error(point, p, q);
      const dp = (error(point, p + STEP, q) - r) / STEP;
      const dq = (error(point, p, q + STEP) - r) / STEP;
      pp += dp * dp;
      pq += dp * dq;
      qq += dq * dq;
      bp += dp * r;
      bq += dq * r;
    }
    const d = pp * qq - pq * pq;
    const sp = (bq * pq - bp * qq) / d;
    const sq = (bp * pq - bq * pp) / d;
    let share = 1;
    let tried = costOf(points, p + sp, q + sq);
    while (!(tried < cost) && share > 1e-6) {
      share /= 2;
      tried = costOf(points, p + share * sp, q + share * sq);
    }
    if (!(tried < cost)) break;
    p += share * sp;
    q += share * sq;
    cost = tried;
  }
  const misfit = Math.max(...points.map((point) => Math.abs(Math.expm1(error(point, p, q)))));
  return { permeability: 1 + Math.exp(p), saturation: Math.exp(q), misfit };
}

const ROUNDS = 60;
const STEP = 1e-5;

function error({ field, flux }: MagnetisationPoint, p: number, q: number): number {
  return Math.log(fluxDensity(field, 1 + Math.exp(p), Math.exp(q)) / flux);
}

function costOf(points: readonly MagnetisationPoint[], p: number, q: number): number {
  let sum = 0;
  for (const point of points) sum += error(point, p, q) ** 2;
  return sum;
}
