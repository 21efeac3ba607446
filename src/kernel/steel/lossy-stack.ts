import { MU0 } from '../constants.ts';

/** A plate layer with a complex relative permeability, e^{jwt}. */
export interface LossyLayer {
  resistivity: number;
  thickness: number;
  muRe: number;
  /** At most 0. */
  muIm: number;
}

/**
 * Reflection of an infinitely wide stack of layers as in plate-reflection, with complex permeabilities, and the waves in the
 * vanishing air gap above one of them: per unit wave from the coil, F comes down there and F Gamma_below goes back up.
 * Source: as plate-reflection; no step of it needs a real permeability.
 */
export class LossyStack {
  re = new Float64Array(256);
  im = new Float64Array(256);
  /** F, and Gamma_below. */
  downRe = new Float64Array(256);
  downIm = new Float64Array(256);
  belowRe = new Float64Array(256);
  belowIm = new Float64Array(256);
  private readonly slab = { gRe: 0, gIm: 0, tRe: 0, tIm: 0 };

  /** @param face the layer above which the waves are wanted */
  fill(
    layers: readonly LossyLayer[],
    layerCount: number,
    omega: number,
    face: number,
    k: Float64Array,
    count: number,
  ): void {
    if (this.re.length < count) this.makeRoom(2 * count);
    for (let i = 0; i < count; i++) this.atNode(layers, layerCount, omega, face, k[i]!, i);
  }

  private atNode(
    layers: readonly LossyLayer[],
    layerCount: number,
    omega: number,
    face: number,
    k: number,
    i: number,
  ): void {
    const { slab } = this;
    let re = 0;
    let im = 0;
    let downRe = 1;
    let downIm = 0;
    for (let j = layerCount - 1; j >= 0; j--) {
      respond(layers[j]!, omega, k, slab);
      const { gRe, gIm, tRe, tIm } = slab;
      if (j === layerCount - 1 && j === face) {
        re = gRe;
        im = gIm;
      } else {
        // 1 / (1 - Gamma_j Gamma_below)
        const dr = 1 - (gRe * re - gIm * im);
        const di = -(gRe * im + gIm * re);
        const d = dr * dr + di * di;
        if (j < face) {
          const fr = (tRe * dr + tIm * di) / d;
          const fi = (tIm * dr - tRe * di) / d;
          const r = downRe * fr - downIm * fi;
          downIm = downRe * fi + downIm * fr;
          downRe = r;
        }
        const ttr = tRe * tRe - tIm * tIm;
        const tti = 2 * tRe * tIm;
        const nr = ttr * re - tti * im;
        const ni = ttr * im + tti * re;
        re = gRe + (nr * dr + ni * di) / d;
        im = gIm + (ni * dr - nr * di) / d;
      }
      if (j === face) {
        this.belowRe[i] = re;
        this.belowIm[i] = im;
      }
    }
    this.re[i] = re;
    this.im[i] = im;
    this.downRe[i] = downRe;
    this.downIm[i] = downIm;
  }

  private makeRoom(count: number): void {
    for (const name of ['re', 'im', 'downRe', 'downIm', 'belowRe', 'belowIm'] as const) {
      this[name] = new Float64Array(count);
    }
  }
}

interface Slab {
  gRe: number;
  gIm: number;
  tRe: number;
  tIm: number;
}

/** One layer in air at k, 1/m: Gamma = A (1 - E) / D, tau = 4 mu k k1 e^{-k1 t} / D (see plate-reflection). */
function respond(
  { resistivity, thickness: t, muRe, muIm }: LossyLayer,
  omega: number,
  k: number,
  out: Slab,
): void {
  const beta = (omega * MU0) / resistivity;
  const br = -beta * muIm;
  const bi = beta * muRe;
  const sr = k * k + br;
  const k1r = Math.sqrt((Math.sqrt(sr * sr + bi * bi) + sr) / 2);
  const k1i = bi / (2 * k1r);
  // A, and A / (mu k + k1)
  const ar = (muRe * muRe - muIm * muIm - 1) * k * k - br;
  const ai = 2 * muRe * muIm * k * k - bi;
  const qr = muRe * k + k1r;
  const qi = muIm * k + k1i;
  const q2 = qr * qr + qi * qi;
  const rr = (ar * qr + ai * qi) / q2;
  const ri = (ai * qr - ar * qi) / q2;
  const squareRe = rr * rr - ri * ri;
  const squareIm = 2 * rr * ri;
  // 1 - E without cancellation
  let er = 1;
  let ei = 0;
  let half = 0;
  let cosine = 1;
  let sine = 0;
  if (t * k1r < DEEP) {
    half = Math.exp(-k1r * t);
    cosine = Math.cos(k1i * t);
    sine = Math.sin(k1i * t);
    const decay = half * half;
    er = -Math.expm1(-2 * k1r * t) + 2 * decay * sine * sine;
    ei = 2 * decay * sine * cosine;
  }
  // 4 mu k k1
  const fr = 4 * k * (muRe * k1r - muIm * k1i);
  const fi = 4 * k * (muRe * k1i + muIm * k1r);
  const dr = fr + squareRe * er - squareIm * ei;
  const di = fi + squareRe * ei + squareIm * er;
  const d = 1 / (dr * dr + di * di);
  const nr = ar * er - ai * ei;
  const ni = ar * ei + ai * er;
  out.gRe = (nr * dr + ni * di) * d;
  out.gIm = (ni * dr - nr * di) * d;
  const xr = half * (fr * cosine + fi * sine);
  const xi = half * (fi * cosine - fr * sine);
  out.tRe = (xr * dr + xi * di) * d;
  out.tIm = (xi * dr - xr * di) * d;
}

/** e^{-40} is nothing to a double beside one. */
const DEEP = 20;
