import { MU0 } from './constants.ts';

/** A plate layer: resistivity ohm m, relative permeability, thickness m (Infinity: a half-space). */
export interface PlateLayer {
  resistivity: number;
  relativePermeability: number;
  thickness: number;
}

/**
 * Reflection Gamma(k) of an infinitely wide stack of layers for the winding's field, e^{jwt}, at the nodes of a
 * spectrum. Gamma = -1 for a perfect conductor, +1 for infinite permeability, 0 for air.
 *
 * One layer in air, with b = w mu0 mu sigma, k1^2 = k^2 + jb, A = (mu^2 - 1) k^2 - jb, s = mu k + k1:
 *   Gamma = A (1 - E) / D,  tau = 4 mu k k1 e^{-k1 t} / D,  D = 4 mu k k1 + (A/s)^2 (1 - E),  E = e^{-2 k1 t}
 * which is the familiar (k^2 - k1^2)(1 - E) / ((k + k1)^2 - (k - k1)^2 E) written so that nothing cancels for
 * thin, poor or slow layers. Layers combine as slabs with no air between them:
 *   Gamma_12 = Gamma_1 + tau_1^2 Gamma_2 / (1 - Gamma_1 Gamma_2).
 * Source: Dodd & Deeds (1968), eq. for a conductor of finite thickness; C. C. Cheng, C. V. Dodd and W. E. Deeds,
 * Int. J. Nondestr. Test. 3 (1971) 109-130 for layers; the combination is the general one of two scatterers
 * (R. Redheffer, J. Math. Phys. 41 (1962) 1-41).
 * Accuracy: 1e-10 relative in the real and the imaginary part, each.
 */
export class PlateReflection {
  re = new Float64Array(256);
  im = new Float64Array(256);

  fill(
    layers: readonly PlateLayer[],
    layerCount: number,
    omega: number,
    k: Float64Array,
    count: number,
  ): void {
    if (this.re.length < count) {
      this.re = new Float64Array(2 * count);
      this.im = new Float64Array(2 * count);
    }
    if (layerCount === 1) {
      const layer = layers[0]!;
      for (let i = 0; i < count; i++) {
        slab(layer, omega, k[i]!, false, slabOut);
        this.re[i] = slabOut.gammaRe;
        this.im[i] = slabOut.gammaIm;
      }
      return;
    }
    for (let i = 0; i < count; i++) {
      let re = 0;
      let im = 0;
      for (let j = layerCount - 1; j >= 0; j--) {
        slab(layers[j]!, omega, k[i]!, true, slabOut);
        const { gammaRe: g, gammaIm: h, tauRe, tauIm } = slabOut;
        const tr = tauRe * tauRe - tauIm * tauIm;
        const ti = 2 * tauRe * tauIm;
        const nr = tr * re - ti * im;
        const ni = tr * im + ti * re;
        const dr = 1 - (g * re - h * im);
        const di = -(g * im + h * re);
        const d = dr * dr + di * di;
        re = g + (nr * dr + ni * di) / d;
        im = h + (ni * dr - nr * di) / d;
      }
      this.re[i] = re;
      this.im[i] = im;
    }
  }
}

/** One slab in air: what it reflects and what it lets through. */
export interface SlabOut {
  gammaRe: number;
  gammaIm: number;
  tauRe: number;
  tauIm: number;
}

/** Result registers of `slab`, so that nothing is allocated per node. */
const slabOut: SlabOut = { gammaRe: 0, gammaIm: 0, tauRe: 0, tauIm: 0 };

/** Past e^{-28}, 1e-12, the far face is not felt. */
const OPAQUE = 28;

/** One layer in air at k (1/m), e^{jwt}: its reflection and, where asked for, its transmission. */
export function slab(
  layer: PlateLayer,
  omega: number,
  k: number,
  withTransmission: boolean,
  out: SlabOut,
): void {
  const mu = layer.relativePermeability;
  const t = layer.thickness;
  const b = (omega * MU0 * mu) / layer.resistivity;
  const k2 = k * k;
  // k1 = sqrt(k^2 + jb), principal root
  const modulus = Math.sqrt(k2 * k2 + b * b);
  const k1r = Math.sqrt((modulus + k2) / 2);
  const k1i = b / (2 * k1r);
  const ar = (mu * mu - 1) * k2;
  const sr = mu * k + k1r;
  const s2 = sr * sr + k1i * k1i;
  // r = A / s
  const rr = (ar * sr - b * k1i) / s2;
  const ri = (-b * sr - ar * k1i) / s2;
  const depth = 2 * t * k1r;
  if (depth > OPAQUE) {
    // Gamma = r / s
    out.gammaRe = (rr * sr + ri * k1i) / s2;
    out.gammaIm = (ri * sr - rr * k1i) / s2;
    out.tauRe = 0;
    out.tauIm = 0;
    return;
  }
  // 1 - E, without cancellation
  const shrink = Math.expm1(-depth);
  const e = shrink + 1;
  const half = t * k1i;
  const sin = Math.sin(half);
  // half is the far face's phase: below a quarter turn in plates of up to a skin depth and a half
  const cos = half < 1.5 ? Math.sqrt(1 - sin * sin) : Math.cos(half);
  const er = -shrink + 2 * e * sin * sin;
  const ei = 2 * e * sin * cos;
  const f = 4 * mu * k;
  const r2r = rr * rr - ri * ri;
  const r2i = 2 * rr * ri;
  const dr = f * k1r + r2r * er - r2i * ei;
  const di = f * k1i + r2r * ei + r2i * er;
  const d = dr * dr + di * di;
  const nr = ar * er + b * ei;
  const ni = ar * ei - b * er;
  out.gammaRe = (nr * dr + ni * di) / d;
  out.gammaIm = (ni * dr - nr * di) / d;
  if (!withTransmission) return;
  // tau = 4 mu k k1 e^{-k1 t} / D
  const root = f * Math.sqrt(e);
  const xr = root * (k1r * cos + k1i * sin);
  const xi = root * (k1i * cos - k1r * sin);
  out.tauRe = (xr * dr + xi * di) / d;
  out.tauIm = (xi * dr - xr * di) / d;
}

/**
 * The smallest spatial frequency on which Gamma varies, 1/m: nodes must resolve it. The sheet conductance that
 * the field sees gives w mu0 sum(sigma min(t, skin depth)) / 2; a magnetic layer 2 / (mu min(t, skin depth));
 * a layer thinner than its skin depth also 1 / t.
 */
export function slowestReflection(layers: readonly PlateLayer[], layerCount: number, omega: number): number {
  let sheet = 0;
  let slowest = Number.POSITIVE_INFINITY;
  for (let j = 0; j < layerCount; j++) {
    const { resistivity, relativePermeability: mu, thickness } = layers[j]!;
    const depth = Math.sqrt((2 * resistivity) / (omega * MU0 * mu));
    const seen = Math.min(thickness, depth);
    sheet += (omega * MU0 * seen) / (2 * resistivity);
    if (mu > 1) slowest = Math.min(slowest, 2 / (mu * seen));
    if (thickness < depth) slowest = Math.min(slowest, 1 / thickness);
  }
  return Math.min(slowest, sheet);
}
