import { MU0 } from '../constants.ts';

/**
 * Surface impedance E/H, ohm, of a slab with complex relative permeability at spatial frequency k, with what is below it as a load:
 *   Z = Zc (ZL + Zc T) / (Zc + ZL T),  T = tanh(g t),  g^2 = k^2 + jw mu0 mu / rho,  Zc = jw mu0 mu / g.
 * Source: the transmission line of a plane wave's fields, such as S. Ramo et al. (1994), 6.9 (from memory).
 */
export class SlabImpedance {
  re = 0;
  im = 0;

  at(
    slab: { readonly resistivity: number; readonly thickness: number },
    muRe: number,
    muIm: number,
    field: { readonly omega: number; readonly k: number; readonly loadRe: number; readonly loadIm: number },
  ): void {
    const { omega, k, loadRe, loadIm } = field;
    const w = omega * MU0;
    const beta = w / slab.resistivity;
    const sr = k * k - beta * muIm;
    const si = beta * muRe;
    const gr = Math.sqrt((Math.hypot(sr, si) + sr) / 2);
    const gi = si / (2 * gr);
    const g2 = gr * gr + gi * gi;
    // jw mu0 mu / g
    const mr = -w * muIm;
    const mi = w * muRe;
    const zr = (mr * gr + mi * gi) / g2;
    const zi = (mi * gr - mr * gi) / g2;
    // tanh(a + jb) = (sinh 2a + j sin 2b) / (cosh 2a + cos 2b)
    const a = 2 * gr * slab.thickness;
    let tr = 1;
    let ti = 0;
    if (a < DEEP) {
      const b = 2 * gi * slab.thickness;
      const d = Math.cosh(a) + Math.cos(b);
      tr = Math.sinh(a) / d;
      ti = Math.sin(b) / d;
    }
    const nr = loadRe + zr * tr - zi * ti;
    const ni = loadIm + zr * ti + zi * tr;
    const dr = zr + loadRe * tr - loadIm * ti;
    const di = zi + loadRe * ti + loadIm * tr;
    const d = dr * dr + di * di;
    const qr = (nr * dr + ni * di) / d;
    const qi = (ni * dr - nr * di) / d;
    this.re = zr * qr - zi * qi;
    this.im = zr * qi + zi * qr;
  }
}

const DEEP = 40;
