import { type BesselPair, besselJ01 } from '../math/bessel-j01.ts';
import { gaussLegendre } from '../math/gauss-legendre.ts';
import { MU0 } from './constants.ts';
import { type CoilWinding, momentOf } from './disc/coil-source.ts';
import { fadedPart } from './disc/spatial-nodes.ts';
import type { FieldGrid, FieldPhasors } from './field-grid.ts';
import type { PlateStack } from './plate-reflection.ts';
import type { CoilAt } from './wide-plate-heat.ts';

/**
 * Flux density around a coil over a wide plate and current density in the plate, as complex amplitudes at the points of a
 * grid, for pictures. With the vector potential A = (mu0/2) int f(k, z) J1(kr) dk,
 *   B_r = -dA/dz,  B_z = (1/r) d(rA)/dr,  J = -jw A / rho,
 *   in the air  f = sum over windings n S(k) int e^{-k|z - z'|} dz' + Gamma(k) a(k) e^{-k (gap + z)},
 *   in a layer  f = a(k) e^{-k gap} times the wave that comes down and the one that its far face sends back.
 * Gamma and the waves follow from the admittance Y = -A' / (mu A) at each face, from the far side up:
 *   p = (k1/mu - Y) / (k1/mu + Y),  Y_above = (k1/mu) (1 - p E) / (1 + p E),  E = e^{-2 k1 t},
 *   A at the face 2k / (k + Y) of the wave that comes down, Gamma = (k - Y) / (k + Y).
 *
 * The spectrum fades out between k r2 = 32 and 64, r2 the coil's outer radius: what is finer than a thirtieth of r2, such as
 * the corners of a section, is smoothed. Domain: radii up to 2 r2. Accuracy: 1 % of the largest value, elsewhere.
 * Source: Dodd & Deeds (1968); transmission lines for the layers, as S. Ramo, J. R. Whinnery and T. Van Duzer, Fields and
 * Waves in Communication Electronics, 3rd ed. (1994), 6.10 (from memory).
 *
 * @param part how much of the plate's answer counts at a spatial frequency, 1/m
 */
export function addWideField(
  windings: readonly CoilWinding[],
  plate: PlateStack,
  { gap, current }: CoilAt,
  { radii, heights, depths }: FieldGrid,
  part: (k: number) => number,
  { radial, axial, current: plateCurrent }: FieldPhasors,
): void {
  const outer = Math.max(...windings.map(({ outerRadius }) => outerRadius));
  const waves = new PlateWaves(plate, depths);
  const own = { value: 0, slope: 0 };
  const pair: BesselPair = { j0: 0, j1: 0 };
  const count = radii.length;
  const j0 = new Float64Array(count);
  const j1 = new Float64Array(count);
  for (let q = 0; q < NODES.b.length; q++) {
    const k = NODES.b[q]! / outer;
    const scale = ((MU0 * current) / 2) * (NODES.weight[q]! / outer) * fadedPart(NODES.b[q]! / END);
    const answer = part(k);
    waves.at(k);
    for (let p = 0; p < count; p++) {
      besselJ01(k * radii[p]!, pair);
      j0[p] = pair.j0;
      j1[p] = pair.j1;
    }
    ownPotential(windings, k, gap, 0, own);
    const incident = own.value;
    for (let h = 0; h < heights.length; h++) {
      ownPotential(windings, k, gap, heights[h]!, own);
      const back = answer * incident * Math.exp(-k * heights[h]!);
      const re = scale * (own.value + back * waves.gammaRe);
      const im = scale * back * waves.gammaIm;
      const slopeRe = scale * (own.slope - k * back * waves.gammaRe);
      const slopeIm = -k * im;
      for (let p = 0; p < count; p++) {
        const at = h * count + p;
        radial.re[at]! -= slopeRe * j1[p]!;
        radial.im[at]! -= slopeIm * j1[p]!;
        axial.re[at]! += k * re * j0[p]!;
        axial.im[at]! += k * im * j0[p]!;
      }
    }
    for (let d = 0; d < depths.length; d++) {
      const density = -plate.omega * waves.conductivity[d]! * scale * answer * incident;
      // -j (re + j im) = im - j re
      const re = -density * waves.im[d]!;
      const im = density * waves.re[d]!;
      for (let p = 0; p < count; p++) {
        const at = d * count + p;
        plateCurrent.re[at]! += re * j1[p]!;
        plateCurrent.im[at]! += im * j1[p]!;
      }
    }
  }
}

const END = 64;
const NODES = createNodes();

/** Panels halved toward zero, then of a width in which J1 (k (r + r2)) turns less than once. */
function createNodes(): { readonly b: Float64Array; readonly weight: Float64Array } {
  const rule = gaussLegendre(5);
  const edges = [0, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2];
  for (let edge = 1.5; edge < END; edge += 1.5) edges.push(edge);
  edges.push(END);
  const b: number[] = [];
  const weight: number[] = [];
  for (let e = 0; e + 1 < edges.length; e++) {
    const width = edges[e + 1]! - edges[e]!;
    rule.nodes.forEach((node, i) => {
      b.push(edges[e]! + width * node);
      weight.push(width * rule.weights[i]!);
    });
  }
  return { b: Float64Array.from(b), weight: Float64Array.from(weight) };
}

/** f of the windings alone and its slope, at a height over the face of a plate that is not there. */
function ownPotential(
  windings: readonly CoilWinding[],
  k: number,
  gap: number,
  z: number,
  out: { value: number; slope: number },
): void {
  out.value = 0;
  out.slope = 0;
  for (const { innerRadius, outerRadius, height, offset, turns, sense } of windings) {
    const density = (sense * turns) / ((outerRadius - innerRadius) * height);
    const spread = (density * (momentOf(k * outerRadius) - momentOf(k * innerRadius))) / (k * k);
    const over = z - (gap + offset);
    if (over <= 0 || over >= height) {
      const away = over <= 0 ? -over : over - height;
      const value = (spread * -Math.expm1(-k * height) * Math.exp(-k * away)) / k;
      out.value += value;
      out.slope += over <= 0 ? k * value : -k * value;
    } else {
      const below = Math.exp(-k * over);
      const above = Math.exp(-k * (height - over));
      out.value += (spread * (2 - below - above)) / k;
      out.slope += spread * (below - above);
    }
  }
}

/** What a stack of layers makes of a wave of spatial frequency k that comes down with amplitude 1 at its face. */
class PlateWaves {
  gammaRe = 0;
  gammaIm = 0;
  /** At the depths. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** S/m */
  readonly conductivity: Float64Array;
  private readonly plate: PlateStack;
  private readonly depths: Float64Array;
  /** Of each layer: k1, and the reflection p at its far face. */
  private readonly rootRe: Float64Array;
  private readonly rootIm: Float64Array;
  private readonly backRe: Float64Array;
  private readonly backIm: Float64Array;
  private readonly quotient: Complex = { re: 0, im: 0 };
  private readonly sum: Complex = { re: 0, im: 0 };

  constructor(plate: PlateStack, depths: Float64Array) {
    this.plate = plate;
    this.depths = depths;
    this.re = new Float64Array(depths.length);
    this.im = new Float64Array(depths.length);
    this.conductivity = Float64Array.from(depths, (depth) => {
      let top = 0;
      for (let j = 0; j < plate.layerCount; j++) {
        const { thickness, resistivity } = plate.layers[j]!;
        if (depth < top + thickness) return 1 / resistivity;
        top += thickness;
      }
      return 0;
    });
    this.rootRe = new Float64Array(plate.layerCount);
    this.rootIm = new Float64Array(plate.layerCount);
    this.backRe = new Float64Array(plate.layerCount);
    this.backIm = new Float64Array(plate.layerCount);
  }

  at(k: number): void {
    const { plate, rootRe, rootIm, backRe, backIm, quotient } = this;
    let yRe = k;
    let yIm = 0;
    for (let j = plate.layerCount - 1; j >= 0; j--) {
      const { thickness, resistivity, relativePermeability: mu } = plate.layers[j]!;
      const b = (plate.omega * MU0 * mu) / resistivity;
      const real = Math.sqrt((Math.hypot(k * k, b) + k * k) / 2);
      rootRe[j] = real;
      rootIm[j] = b / (2 * real);
      const ownRe = rootRe[j]! / mu;
      const ownIm = rootIm[j]! / mu;
      divide(ownRe - yRe, ownIm - yIm, ownRe + yRe, ownIm + yIm, quotient);
      backRe[j] = quotient.re;
      backIm[j] = quotient.im;
      // p E
      const fall = Math.exp(-2 * rootRe[j]! * thickness);
      const phase = fall === 0 ? 0 : -2 * rootIm[j]! * thickness;
      const eRe = fall * (quotient.re * Math.cos(phase) - quotient.im * Math.sin(phase));
      const eIm = fall * (quotient.re * Math.sin(phase) + quotient.im * Math.cos(phase));
      divide(1 - eRe, -eIm, 1 + eRe, eIm, quotient);
      yRe = ownRe * quotient.re - ownIm * quotient.im;
      yIm = ownRe * quotient.im + ownIm * quotient.re;
    }
    divide(k - yRe, -yIm, k + yRe, yIm, quotient);
    this.gammaRe = quotient.re;
    this.gammaIm = quotient.im;
    this.fillDepths();
  }

  /** A at the face is 1 + Gamma; within a layer (e^{-k1 d} + p e^{-k1 (2t - d)}) / (1 + p E) of that at its top. */
  private fillDepths(): void {
    const { plate, depths, rootRe, rootIm, backRe, backIm, quotient, sum } = this;
    let topRe = 1 + this.gammaRe;
    let topIm = this.gammaIm;
    let top = 0;
    for (let j = 0; j < plate.layerCount; j++) {
      const { thickness } = plate.layers[j]!;
      const value = (d: number): void => {
        const down = Math.exp(-rootRe[j]! * d);
        const far = 2 * thickness - d;
        const up = Math.exp(-rootRe[j]! * far);
        const x = -rootIm[j]! * d;
        const y = up === 0 ? 0 : -rootIm[j]! * far;
        sum.re = down * Math.cos(x) + up * (backRe[j]! * Math.cos(y) - backIm[j]! * Math.sin(y));
        sum.im = down * Math.sin(x) + up * (backRe[j]! * Math.sin(y) + backIm[j]! * Math.cos(y));
      };
      value(0);
      divide(topRe, topIm, sum.re, sum.im, quotient);
      const scaleRe = quotient.re;
      const scaleIm = quotient.im;
      for (let i = 0; i < depths.length; i++) {
        const d = depths[i]! - top;
        if (d < 0 || d >= thickness) continue;
        value(d);
        this.re[i] = sum.re * scaleRe - sum.im * scaleIm;
        this.im[i] = sum.re * scaleIm + sum.im * scaleRe;
      }
      if (!Number.isFinite(thickness)) return;
      value(thickness);
      topRe = sum.re * scaleRe - sum.im * scaleIm;
      topIm = sum.re * scaleIm + sum.im * scaleRe;
      top += thickness;
    }
  }
}

interface Complex {
  re: number;
  im: number;
}

function divide(re: number, im: number, byRe: number, byIm: number, out: Complex): void {
  const square = byRe * byRe + byIm * byIm;
  out.re = (re * byRe + im * byIm) / square;
  out.im = (im * byRe - re * byIm) / square;
}
