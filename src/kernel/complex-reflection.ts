import { MU0 } from './constants.ts';
import type { PlateLayer } from './plate-reflection.ts';

/**
 * Reflection Gamma(k, p) of an infinitely wide stack of layers for a field that varies as e^{pt}, p complex: the same
 * formulas as in plate-reflection with jw replaced by p, so that Gamma(k, jw) is the reflection of the steady state
 * and Gamma(k, p*) = Gamma(k, p)*. It is what moving coils need: their currents have the sidebands s +- jw.
 *
 * One layer in air, with B = p mu0 mu / rho, k1^2 = k^2 + B (root with Re k1 >= 0), A = (mu^2 - 1) k^2 - B, s = mu k + k1:
 *   Gamma = A (1 - E) / D,  tau = 4 mu k k1 e^{-k1 t} / D,  D = 4 mu k k1 + (A/s)^2 (1 - E),  E = e^{-2 k1 t}.
 * Domain: k > 0; p off the negative real axis. Accuracy: 1e-12 relative, nothing cancels.
 * Source: as plate-reflection; the step from jw to p is the Laplace transform of the same linear equations.
 */
export class ComplexReflection {
  re = new Float64Array(256);
  im = new Float64Array(256);
  private readonly slab: Slab = { gammaRe: 0, gammaIm: 0, tauRe: 0, tauIm: 0 };

  fill(
    layers: readonly PlateLayer[],
    layerCount: number,
    pRe: number,
    pIm: number,
    k: Float64Array,
    count: number,
  ): void {
    if (this.re.length < count) {
      this.re = new Float64Array(2 * count);
      this.im = new Float64Array(2 * count);
    }
    const { re, im, slab } = this;
    for (let i = 0; i < count; i++) {
      let totalRe = 0;
      let totalIm = 0;
      for (let j = layerCount - 1; j >= 0; j--) {
        reflect(layers[j]!, pRe, pIm, k[i]!, j < layerCount - 1, slab);
        if (j === layerCount - 1) {
          totalRe = slab.gammaRe;
          totalIm = slab.gammaIm;
          continue;
        }
        // Gamma_12 = Gamma_1 + tau_1^2 Gamma_2 / (1 - Gamma_1 Gamma_2)
        const { gammaRe: g, gammaIm: h, tauRe, tauIm } = slab;
        const tr = tauRe * tauRe - tauIm * tauIm;
        const ti = 2 * tauRe * tauIm;
        const nr = tr * totalRe - ti * totalIm;
        const ni = tr * totalIm + ti * totalRe;
        const dr = 1 - (g * totalRe - h * totalIm);
        const di = -(g * totalIm + h * totalRe);
        const d = dr * dr + di * di;
        totalRe = g + (nr * dr + ni * di) / d;
        totalIm = h + (ni * dr - nr * di) / d;
      }
      re[i] = totalRe;
      im[i] = totalIm;
    }
  }
}

/** Gamma and tau of one layer in air. */
interface Slab {
  gammaRe: number;
  gammaIm: number;
  tauRe: number;
  tauIm: number;
}

/** Fills `slab`, tau only where it is wanted. */
function reflect(
  layer: PlateLayer,
  pRe: number,
  pIm: number,
  k: number,
  transmits: boolean,
  slab: Slab,
): void {
  const { relativePermeability: mu, thickness: t } = layer;
  const scale = (MU0 * mu) / layer.resistivity;
  const br = scale * pRe;
  const bi = scale * pIm;
  // k1
  const sr = k * k + br;
  const m = Math.sqrt(sr * sr + bi * bi);
  let k1r: number;
  let k1i: number;
  if (sr >= 0) {
    k1r = Math.sqrt((m + sr) / 2);
    k1i = bi / (2 * k1r);
  } else {
    k1i = Math.sqrt((m - sr) / 2) * (bi < 0 ? -1 : 1);
    k1r = bi / (2 * k1i);
  }
  // 1 - E, without cancellation
  let er = 1;
  let ei = 0;
  let half = 0;
  let phase = 0;
  if (2 * t * k1r < DEEP) {
    half = Math.exp(-k1r * t);
    phase = k1i * t;
    const decay = half * half;
    const sine = Math.sin(phase);
    er = -Math.expm1(-2 * k1r * t) + 2 * decay * sine * sine;
    ei = 2 * decay * sine * Math.cos(phase);
  }
  const ar = (mu * mu - 1) * k * k - br;
  const ai = -bi;
  // (A / s)^2
  const qr = mu * k + k1r;
  const q2 = qr * qr + k1i * k1i;
  const rr = (ar * qr + ai * k1i) / q2;
  const ri = (ai * qr - ar * k1i) / q2;
  const r2r = rr * rr - ri * ri;
  const r2i = 2 * rr * ri;
  const f = 4 * mu * k;
  const dr = f * k1r + r2r * er - r2i * ei;
  const di = f * k1i + r2r * ei + r2i * er;
  const d = 1 / (dr * dr + di * di);
  const nr = ar * er - ai * ei;
  const ni = ar * ei + ai * er;
  slab.gammaRe = (nr * dr + ni * di) * d;
  slab.gammaIm = (ni * dr - nr * di) * d;
  if (!transmits) return;
  const cos = f * half * Math.cos(phase);
  const sin = -f * half * Math.sin(phase);
  const xr = k1r * cos - k1i * sin;
  const xi = k1r * sin + k1i * cos;
  slab.tauRe = (xr * dr + xi * di) * d;
  slab.tauIm = (xi * dr - xr * di) * d;
}

/** e^{-40} is nothing to a double beside one. */
const DEEP = 40;
