import { dampedWaves, WAVE_END, type WaveParts } from '../math/damped-wave.ts';
import { MU0 } from './constants.ts';

/** A plate layer: resistivity ohm m, relative permeability, thickness m (Infinity: a half-space). */
export interface PlateLayer {
  resistivity: number;
  relativePermeability: number;
  thickness: number;
}

/** A plate's layers, the coil side first, at an angular frequency, rad/s. One object is filled again from design to design. */
export interface PlateStack {
  readonly layers: readonly PlateLayer[];
  readonly layerCount: number;
  readonly omega: number;
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
  private readonly slab = new SlabResponse();

  /** @param k 1/m, rising */
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
    const { slab, re: totalRe, im: totalIm } = this;
    if (layerCount === 1) {
      slab.reflect(layers[0]!, omega, k, count, totalRe, totalIm);
      return;
    }
    totalRe.fill(0, 0, count);
    totalIm.fill(0, 0, count);
    for (let j = layerCount - 1; j >= 0; j--) {
      slab.fill(layers[j]!, omega, k, count);
      const { gammaRe, gammaIm, tauRe, tauIm } = slab;
      for (let i = 0; i < count; i++) {
        const re = totalRe[i]!;
        const im = totalIm[i]!;
        const g = gammaRe[i]!;
        const h = gammaIm[i]!;
        const tr = tauRe[i]! * tauRe[i]! - tauIm[i]! * tauIm[i]!;
        const ti = 2 * tauRe[i]! * tauIm[i]!;
        const nr = tr * re - ti * im;
        const ni = tr * im + ti * re;
        const dr = 1 - (g * re - h * im);
        const di = -(g * im + h * re);
        const d = dr * dr + di * di;
        totalRe[i] = g + (nr * dr + ni * di) / d;
        totalIm[i] = h + (ni * dr - nr * di) / d;
      }
    }
  }
}

/**
 * One layer in air at rising k (1/m), e^{jwt}: its reflection and its transmission. Worked out in passes over all
 * nodes, root, far face and fraction, each a short loop without a call.
 */
export class SlabResponse {
  gammaRe = new Float64Array(0);
  gammaIm = new Float64Array(0);
  tauRe = new Float64Array(0);
  tauIm = new Float64Array(0);
  /** k1, and of e^{-2 k1 t} what dampedWaves gives. */
  private rootRe = new Float64Array(0);
  private rootIm = new Float64Array(0);
  private readonly waves: WaveParts = {
    fall: new Float64Array(0),
    sin: new Float64Array(0),
    cos: new Float64Array(0),
  };

  fill(layer: PlateLayer, omega: number, k: Float64Array, count: number): void {
    if (this.tauRe.length < count) {
      for (const name of ['gammaRe', 'gammaIm', 'tauRe', 'tauIm'] as const) {
        this[name] = new Float64Array(2 * count);
      }
    }
    const seen = this.reflect(layer, omega, k, count, this.gammaRe, this.gammaIm);
    this.transmit(layer, omega, k, count, seen);
  }

  /** Reflection alone, into the arrays given. Returns the number of nodes at which the far face is felt. */
  reflect(
    layer: PlateLayer,
    omega: number,
    k: Float64Array,
    count: number,
    re: Float64Array,
    im: Float64Array,
  ): number {
    const mu = layer.relativePermeability;
    const t = layer.thickness;
    const b = (omega * MU0 * mu) / layer.resistivity;
    const excess = mu * mu - 1;
    const seen = this.roots(b, t, k, count);
    const { rootRe, rootIm, waves } = this;
    const { fall, sin, cos } = waves;
    dampedWaves(rootRe, rootIm, t, seen, waves);
    for (let i = 0; i < seen; i++) {
      const ki = k[i]!;
      const k1r = rootRe[i]!;
      const k1i = rootIm[i]!;
      const ar = excess * ki * ki;
      const sr = mu * ki + k1r;
      const s2 = sr * sr + k1i * k1i;
      // r = A / s, times |s|^2
      const rr = ar * sr - b * k1i;
      const ri = -b * sr - ar * k1i;
      // 1 - E, without cancellation
      const shrink = fall[i]!;
      const twice = 2 * (1 - shrink) * sin[i]!;
      const er = shrink + twice * sin[i]!;
      const ei = twice * cos[i]!;
      // D |s|^4
      const s4 = s2 * s2;
      const f = 4 * mu * ki * s4;
      const r2r = rr * rr - ri * ri;
      const r2i = 2 * rr * ri;
      const dr = f * k1r + r2r * er - r2i * ei;
      const di = f * k1i + r2r * ei + r2i * er;
      const scale = s4 / (dr * dr + di * di);
      const nr = ar * er + b * ei;
      const ni = ar * ei - b * er;
      re[i] = (nr * dr + ni * di) * scale;
      im[i] = (ni * dr - nr * di) * scale;
    }
    for (let i = seen; i < count; i++) {
      const ki = k[i]!;
      const k1r = rootRe[i]!;
      const k1i = rootIm[i]!;
      // Gamma = A / s^2
      const ar = excess * ki * ki;
      const sr = mu * ki + k1r;
      const qr = sr * sr - k1i * k1i;
      const qi = 2 * sr * k1i;
      const scale = 1 / (qr * qr + qi * qi);
      re[i] = (ar * qr - b * qi) * scale;
      im[i] = -(b * qr + ar * qi) * scale;
    }
    return seen;
  }

  /** k1 = sqrt(k^2 + jb), principal root. Returns the number of nodes at which the far face is felt. */
  private roots(b: number, t: number, k: Float64Array, count: number): number {
    if (this.rootRe.length < count) {
      for (const name of ['rootRe', 'rootIm'] as const) this[name] = new Float64Array(2 * count);
      for (const name of ['fall', 'sin', 'cos'] as const) this.waves[name] = new Float64Array(2 * count);
    }
    const { rootRe, rootIm } = this;
    const square = b * b;
    const half = b / 2;
    for (let i = 0; i < count; i++) {
      const k2 = k[i]! * k[i]!;
      const real = Math.sqrt((Math.sqrt(k2 * k2 + square) + k2) / 2);
      rootRe[i] = real;
      rootIm[i] = half / real;
    }
    let seen = count;
    while (seen > 0 && 2 * t * rootRe[seen - 1]! > WAVE_END) seen--;
    return seen;
  }

  /** tau = 4 mu k k1 e^{-k1 t} / D, with D = A (1 - E) / Gamma. */
  private transmit(layer: PlateLayer, omega: number, k: Float64Array, count: number, seen: number): void {
    const mu = layer.relativePermeability;
    const b = (omega * MU0 * mu) / layer.resistivity;
    const excess = mu * mu - 1;
    const { gammaRe, gammaIm, tauRe, tauIm, rootRe, rootIm } = this;
    const { fall, sin, cos } = this.waves;
    for (let i = 0; i < seen; i++) {
      const ki = k[i]!;
      const e = 1 - fall[i]!;
      const twice = 2 * e * sin[i]!;
      const er = fall[i]! + twice * sin[i]!;
      const ei = twice * cos[i]!;
      const ar = excess * ki * ki;
      const nr = ar * er + b * ei;
      const ni = ar * ei - b * er;
      // Gamma / (A (1 - E)) times 4 mu k e^{-Re k1 t}
      const scale = (4 * mu * ki * Math.sqrt(e)) / (nr * nr + ni * ni);
      const gr = scale * (gammaRe[i]! * nr + gammaIm[i]! * ni);
      const gi = scale * (gammaIm[i]! * nr - gammaRe[i]! * ni);
      // k1 e^{-j Im k1 t}
      const xr = rootRe[i]! * cos[i]! + rootIm[i]! * sin[i]!;
      const xi = rootIm[i]! * cos[i]! - rootRe[i]! * sin[i]!;
      tauRe[i] = gr * xr - gi * xi;
      tauIm[i] = gr * xi + gi * xr;
    }
    tauRe.fill(0, seen, count);
    tauIm.fill(0, seen, count);
  }
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
