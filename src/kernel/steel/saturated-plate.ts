import { MU0 } from '../constants.ts';
import { EffectivePermeability, type SaturatingMetal } from './effective-permeability.ts';
import { type LossyLayer, LossyStack } from './lossy-stack.ts';
import { fluxDensity } from './magnetisation.ts';
import { SlabImpedance } from './slab-impedance.ts';

/** A layer as the steel laws take it: resistivity ohm m, thickness m, saturation T (NaN: linear). */
export interface SaturableLayer {
  readonly resistivity: number;
  readonly thickness: number;
  readonly relativePermeability: number;
  readonly saturation: number;
}

/** The coil's field at the plate, per ampere rms. */
export interface FieldSamples {
  readonly count: number;
  /** 1/m, with quadrature weights. */
  readonly k: Float64Array;
  readonly dk: Float64Array;
  /** (1/2) a(k) e^{-k gap} dk: see coil-source. */
  readonly amplitude: Float64Array;
  /** Distances from the axis, m, with quadrature weights that include the radius. */
  readonly radii: number;
  readonly weight: Float64Array;
  /** J1(k r), a row of `k.length` a radius. */
  readonly j1: Float64Array;
  readonly stride: number;
}

/**
 * A wide plate of which layers saturate, under a coil at one current and gap: the complex permeability of each such layer, the
 * same at all radii, with which a linear plate answers as the saturating one does.
 *
 * Where the field is strong the metal's own permeability is lower: mu(r) from the local amplitude of H at the layer's face (see
 * effective-permeability). Between the field of the uniform plate, H0, and the local one stands the impedance of what drives
 * it, Zs = jw mu0 / k (the air's, with the layers above in parallel):  H = H0 (Z0 + Zs) / (Z(mu(r)) + Zs),
 * so H is kept where the air decides and E where the metal does. The uniform plate is chosen so that what the others do to the
 * coil's impedance cancels to first order (reciprocity: H0 times the local excess of E, integrated over the plate):
 *   sum w H0^2 (Z(r) - Z0) / (Z(r) + Zs) = 0.
 * Both are iterated together until the permeability stands still to 1e-6. k is the mean over the layer's own field.
 *
 * Accuracy: against a solution that resolves mu over the radius (test/fixtures/saturated-plate.py) 2 % of the loss, 3 % of what
 * the plate adds to the inductance, 4 % of the force (15 % of its size where lift and pull nearly cancel); the model itself,
 * harmonics and hysteresis left out, 10 to 15 %.
 */
export class SaturatedPlate {
  readonly stack = new LossyStack();
  readonly layers: LossyLayer[] = [];
  /** Largest peak flux density at the face of the first saturating layer, T. */
  peakFlux = Number.NaN;
  /** Rounds that the last solution took. */
  rounds = 0;
  private readonly effective = new EffectivePermeability();
  private readonly impedance = new SlabImpedance();
  private readonly load = { omega: 0, k: 0, loadRe: 0, loadIm: 0 };
  private readonly metal = { permeability: 1, saturation: 0, resistivity: 0 };
  private readonly local: Float64Array[] = [];
  private readonly uniformRe = new Float64Array(MOST_RADII);
  private readonly uniformIm = new Float64Array(MOST_RADII);
  private readonly one = new LossyStack();
  private readonly oneK = new Float64Array(1);
  private readonly source = { re: 0, im: 0 };

  solve(
    layers: readonly SaturableLayer[],
    layerCount: number,
    omega: number,
    field: FieldSamples,
    current: number,
  ): void {
    for (let j = 0; j < layerCount; j++) this.start(j, layers[j]!);
    this.peakFlux = Number.NaN;
    this.load.omega = omega;
    for (let round = 1; round <= MOST_ROUNDS; round++) {
      let change = 0;
      for (let j = 0; j < layerCount; j++) {
        if (!(layers[j]!.saturation > 0)) continue;
        change = Math.max(change, this.improve(j, layers, layerCount, field, current, round === 1));
      }
      this.rounds = round;
      if (change < STILL) break;
    }
    for (let j = 0; j < layerCount; j++) {
      if (!(layers[j]!.saturation > 0)) continue;
      let most = Number.NEGATIVE_INFINITY;
      const local = this.local[j]!;
      for (let i = 0; i < field.radii; i++) most = Math.max(most, local[i]!);
      const { relativePermeability, saturation } = layers[j]!;
      this.peakFlux = fluxDensity(Math.exp(most), relativePermeability, saturation);
      break;
    }
  }

  /** Reflection of the plate last solved at the nodes of a spectrum. */
  reflect(
    k: Float64Array,
    count: number,
    layerCount: number,
    omega: number,
    out: { re: Float64Array; im: Float64Array },
  ): void {
    const { stack } = this;
    stack.fill(this.layers, layerCount, omega, 0, k, count);
    out.re.set(stack.re.subarray(0, count));
    out.im.set(stack.im.subarray(0, count));
  }

  private start(j: number, { resistivity, thickness, relativePermeability }: SaturableLayer): void {
    this.layers[j] ??= { resistivity: 0, thickness: 0, muRe: 1, muIm: 0 };
    const layer = this.layers[j]!;
    layer.resistivity = resistivity;
    layer.thickness = thickness;
    layer.muRe = relativePermeability;
    layer.muIm = 0;
    this.local[j] ??= new Float64Array(MOST_RADII);
    this.local[j]!.fill(Number.NEGATIVE_INFINITY);
  }

  /** One round for one layer; returns the relative change of its permeability. */
  private improve(
    j: number,
    given: readonly SaturableLayer[],
    layerCount: number,
    field: FieldSamples,
    current: number,
    first: boolean,
  ): number {
    const { stack, layers, load, impedance, source, uniformRe, uniformIm } = this;
    const { omega } = load;
    const layer = layers[j]!;
    stack.fill(layers, layerCount, omega, j, field.k, field.count);
    const k = this.uniformField(field, current);
    // nothing comes through what lies above
    if (!(k > 0)) return 0;
    load.k = k;
    this.fillLoad(j, layerCount, k);
    this.fillSource(j, k);
    impedance.at(layer, layer.muRe, layer.muIm, load);
    const z0r = impedance.re;
    const z0i = impedance.im;
    const { metal } = this;
    metal.permeability = given[j]!.relativePermeability;
    metal.saturation = given[j]!.saturation;
    metal.resistivity = layer.resistivity;
    const local = this.local[j]!;
    const drive = Math.hypot(z0r + source.re, z0i + source.im);
    // sums of w H0^2 / (Z + Zs), and of it times Z
    let [nr, ni, dr, di] = [0, 0, 0, 0];
    for (let i = 0; i < field.radii; i++) {
      const hr = uniformRe[i]!;
      const hi = uniformIm[i]!;
      const strength = Math.log(Math.hypot(hr, hi) * drive);
      let h = first ? Math.log(Math.hypot(hr, hi)) : local[i]!;
      this.localImpedance(layer, metal, h);
      for (let inner = 0; inner < INNER_ROUNDS; inner++) {
        const opposed = Math.hypot(impedance.re + source.re, impedance.im + source.im);
        h += RELAXED * (strength - Math.log(opposed) - h);
        this.localImpedance(layer, metal, h);
      }
      local[i] = h;
      const ar = impedance.re + source.re;
      const ai = impedance.im + source.im;
      const a2 = (ar * ar + ai * ai) / field.weight[i]!;
      const sr = hr * hr - hi * hi;
      const si = 2 * hr * hi;
      const pr = (sr * ar + si * ai) / a2;
      const pi = (si * ar - sr * ai) / a2;
      dr += pr;
      di += pi;
      nr += pr * impedance.re - pi * impedance.im;
      ni += pr * impedance.im + pi * impedance.re;
    }
    const d = dr * dr + di * di;
    const gr = (nr * dr + ni * di) / d - z0r;
    const gi = (ni * dr - nr * di) / d - z0i;
    return this.step(layer, gr, gi, z0r, z0i);
  }

  /** Moves a layer's permeability so that its impedance changes by g: Newton in ln mu. */
  private step(layer: LossyLayer, gr: number, gi: number, z0r: number, z0i: number): number {
    const { impedance, load } = this;
    const { muRe, muIm } = layer;
    impedance.at(layer, muRe * (1 + DIFFERENCE), muIm * (1 + DIFFERENCE), load);
    const sr = (impedance.re - z0r) / DIFFERENCE;
    const si = (impedance.im - z0i) / DIFFERENCE;
    const s2 = sr * sr + si * si;
    let lr = (gr * sr + gi * si) / s2;
    let li = (gi * sr - gr * si) / s2;
    const size = Math.hypot(lr, li);
    if (size > FARTHEST) {
      lr *= FARTHEST / size;
      li *= FARTHEST / size;
    }
    const grow = Math.exp(lr);
    const cos = grow * Math.cos(li);
    const sin = grow * Math.sin(li);
    layer.muRe = Math.max(1, muRe * cos - muIm * sin);
    layer.muIm = Math.min(0, muRe * sin + muIm * cos);
    return size;
  }

  private localImpedance(layer: LossyLayer, metal: SaturatingMetal, logField: number): void {
    const { effective, impedance, load } = this;
    effective.at(Math.exp(logField), metal, layer.thickness, load.omega);
    impedance.at(layer, effective.re, effective.im, load);
  }

  /** H of the uniform plate at the layer's face, amplitude A/m, into uniformRe and Im; its mean spatial frequency, 1/m, or 0. */
  private uniformField(
    { count, k, dk, amplitude, radii, j1, stride }: FieldSamples,
    current: number,
  ): number {
    const { stack, uniformRe, uniformIm } = this;
    const { downRe, downIm, belowRe, belowIm } = stack;
    const peak = current * Math.SQRT2;
    uniformRe.fill(0, 0, radii);
    uniformIm.fill(0, 0, radii);
    let squares = 0;
    let over = 0;
    for (let n = 0; n < count; n++) {
      // F (1 - Gamma_below)
      const oneR = 1 - belowRe[n]!;
      const oneI = -belowIm[n]!;
      const scale = amplitude[n]! * peak;
      const hr = scale * (downRe[n]! * oneR - downIm[n]! * oneI);
      const hi = scale * (downRe[n]! * oneI + downIm[n]! * oneR);
      const square = (hr * hr + hi * hi) / dk[n]!;
      const kn = k[n]!;
      squares += square * kn;
      over += square;
      const r = hr * kn;
      const i = hi * kn;
      for (let p = 0, at = n; p < radii; p++, at += stride) {
        uniformRe[p]! += r * j1[at]!;
        uniformIm[p]! += i * j1[at]!;
      }
    }
    let most = 0;
    for (let p = 0; p < radii; p++) most = Math.max(most, Math.hypot(uniformRe[p]!, uniformIm[p]!));
    if (!(most > FAINT)) return 0;
    for (let p = 0; p < radii; p++) {
      if (Math.hypot(uniformRe[p]!, uniformIm[p]!) < FAINT) uniformRe[p] = FAINT;
    }
    return squares / over;
  }

  /** What the layer has below it, at k. */
  private fillLoad(j: number, layerCount: number, k: number): void {
    const { one, oneK, load, layers } = this;
    const air = load.omega * MU0;
    load.loadRe = 0;
    load.loadIm = air / k;
    if (j === layerCount - 1) return;
    oneK[0] = k;
    one.fill(layers, layerCount, load.omega, j + 1, oneK, 1);
    // jw mu0 / k (1 + Gamma) / (1 - Gamma)
    const gr = one.belowRe[0]!;
    const gi = one.belowIm[0]!;
    const d = (1 - gr) ** 2 + gi * gi;
    load.loadRe = ((air / k) * (-2 * gi)) / d;
    load.loadIm = ((air / k) * (1 - gr * gr - gi * gi)) / d;
  }

  /** Impedance of what drives the layer's face: the air, and the layers above as sheets. */
  private fillSource(j: number, k: number): void {
    const { layers, load, source } = this;
    const reactance = (load.omega * MU0) / k;
    let sheets = 0;
    for (let i = 0; i < j; i++) sheets += layers[i]!.thickness / layers[i]!.resistivity;
    // 1 / (sheets + 1 / jX)
    const d = sheets * sheets + 1 / (reactance * reactance);
    source.re = sheets / d;
    source.im = 1 / (reactance * d);
  }
}

const MOST_RADII = 32;
const MOST_ROUNDS = 60;
const STILL = 1e-6;
/** The answer to a change of ln H lies between 0 and -1/2 of it (the step law's): most of the way at once. */
const RELAXED = 0.8;
const INNER_ROUNDS = 2;
/** A/m: no metal saturates in so little. */
const FAINT = 1e-6;
const DIFFERENCE = 1e-4;
const FARTHEST = 0.7;
