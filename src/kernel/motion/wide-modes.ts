import { gaussOfPoints, type PointRule } from '../../math/gauss-of-points.ts';
import { symmetricEigen } from '../../math/symmetric-eigen.ts';
import { MU0 } from '../constants.ts';
import { AxialBasis } from '../disc/axial-basis.ts';
import type { PlateLayer, PlateStack } from '../plate-reflection.ts';
import { skinDepth } from '../skin-depth.ts';
import { type CoupledModes, strongest } from './coupled-modes.ts';

/** A coil over a wide plate: dL(gap) = sum q Gamma(k) e^{-2k gap} (see winding-spectrum). */
export interface CoilSpectrum {
  readonly count: number;
  /** 1/m */
  readonly k: Float64Array;
  /** H */
  readonly q: Float64Array;
}

/**
 * The modes of a wide plate of layers that are not magnetic, as a coil couples to them.
 *
 * At a spatial frequency k currents flow as J1(kr) chi(z), chi in Legendre polynomials of each layer (axial-basis), and do
 * not mix with those of another k: with x_c = int chi_c e^{-kz} dz and X_cd = int int chi_c chi_d e^{-k|z - z'|} dz dz'
 *   (R + pM) i = -p x A,  R = rho,  M = mu0 X / (2k),  Gamma(k, p) = mu0 / (2k) x . i / A,
 * so that with w, mu the orthonormal eigenvectors and eigenvalues of R^{-1/2} M R^{-1/2}
 *   Gamma(k, p) = -sum mu0 / (2 k mu) (x . R^{-1/2} w)^2 p / (p + lambda),  lambda = 1 / mu.
 * Some hundred k of the coil's spectrum become the twelve of its own Gauss rule, weighted with the field at the nearest gap;
 * polynomials are those of ln(1 + kr). Each k and each w then is a mode that couples by s e^{-k gap}.
 *
 * Accuracy: of dL, its slope and its mixed derivative, as complex numbers, against the sums over all k at frequencies about
 * the supply's, over random rigs at gaps up to the coil's radius: 1e-5 in the median, 1e-3 at the 99th percentile (tests).
 * Domain: plates of any thickness; what lies more than eight skin depths deep is left out.
 * Source: the modes of disc-modes with the wide plate's own currents; our own derivation.
 */
export function createWideModes(
  spectrum: CoilSpectrum,
  plate: PlateStack,
  radius: number,
  nearest: number,
  farthest: number,
): CoupledModes {
  const { points, weights } = coilRule(spectrum, radius, nearest);
  const layers = upperLayers(plate);
  const ks: number[] = [];
  const rates: number[] = [];
  const couplings: number[] = [];
  for (let j = 0; j < points.length; j++) {
    const k = Math.expm1(points[j]!) / radius;
    const { count, mu, caught } = slabModes(layers, k);
    for (let n = 0; n < count; n++) {
      // rounding beside the largest
      if (!(mu[n]! > 0)) continue;
      ks.push(k);
      rates.push(1 / mu[n]!);
      couplings.push(caught[n]! * Math.sqrt((weights[j]! * MU0) / (2 * k * mu[n]!)));
    }
  }
  const kept = strongest(couplings, rates, plate.omega);
  return new WideModes(
    Float64Array.from(kept, (n) => ks[n]!),
    Float64Array.from(kept, (n) => rates[n]!),
    Float64Array.from(kept, (n) => couplings[n]!),
    nearest,
    farthest,
  );
}

/** Modes of which several in a row have the same k. */
class WideModes implements CoupledModes {
  readonly count: number;
  readonly rates: Float64Array;
  readonly nearest: number;
  readonly farthest: number;
  readonly coupling: Float64Array;
  readonly slope: Float64Array;
  private readonly k: Float64Array;
  /** s at the nearest gap. */
  private readonly strength: Float64Array;

  constructor(
    k: Float64Array,
    rates: Float64Array,
    strength: Float64Array,
    nearest: number,
    farthest: number,
  ) {
    this.count = k.length;
    this.k = k;
    this.rates = rates;
    this.strength = strength;
    this.nearest = nearest;
    this.farthest = farthest;
    this.coupling = new Float64Array(k.length);
    this.slope = new Float64Array(k.length);
  }

  evaluate(gap: number): void {
    const { count, k: ks, strength, coupling, slope } = this;
    const rise = gap - this.nearest;
    let last = Number.NaN;
    let left = 0;
    for (let n = 0; n < count; n++) {
      const k = ks[n]!;
      if (k !== last) {
        last = k;
        left = Math.exp(-k * rise);
      }
      const s = strength[n]! * left;
      coupling[n] = s;
      slope[n] = -k * s;
    }
  }
}

const SIZE = 12;

/** ln(1 + k radius) and weights, H, of the coil's field at a gap. */
function coilRule({ count, k, q }: CoilSpectrum, radius: number, gap: number): PointRule {
  const points = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    points[i] = Math.log1p(k[i]! * radius);
    weights[i] = q[i]! * Math.exp(-2 * k[i]! * gap);
  }
  return gaussOfPoints(points, weights, SIZE);
}

/** Skin depths from the face beyond which nothing of the field is left. */
const DEEPEST = 8;

interface Slab extends Pick<PlateLayer, 'thickness' | 'resistivity'> {
  readonly depth: number;
}

function upperLayers({ layers, layerCount, omega }: PlateStack): Slab[] {
  const upper: Slab[] = [];
  let left = DEEPEST;
  for (let j = 0; j < layerCount && left > 0; j++) {
    const { thickness, resistivity } = layers[j]!;
    const depth = skinDepth(resistivity, 1, omega);
    upper.push({ thickness: Math.min(thickness, left * depth), resistivity, depth });
    left -= thickness / depth;
  }
  return upper;
}

/** mu of each mode, s, and x . R^{-1/2} w. */
function slabModes(
  layers: readonly Slab[],
  k: number,
): { count: number; mu: Float64Array; caught: Float64Array } {
  const basis = new AxialBasis(
    layers.map(({ thickness }) => thickness),
    layers.map((layer) => orderOf(layer, k)),
  );
  basis.interact(k);
  const { count, moment, coupling, layer } = basis;
  const roots = Float64Array.from(layer, (l) => Math.sqrt(layers[l]!.resistivity));
  const vectors = new Float64Array(count * count);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) {
      vectors[i * count + j] = (MU0 * coupling[i * count + j]!) / (2 * k * roots[i]! * roots[j]!);
    }
  }
  const mu = new Float64Array(count);
  symmetricEigen(count, vectors, mu);
  const caught = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    for (let n = 0; n < count; n++) {
      caught[n] = caught[n]! + (moment[i]! / roots[i]!) * vectors[i * count + n]!;
    }
  }
  return { count, mu, caught };
}

/** Polynomials over the thickness: those of a disc (disc-resolution) and one more. */
function orderOf({ thickness, depth }: Slab, k: number): number {
  const a = thickness * Math.hypot(1 / depth, k / 2);
  return Math.ceil(1 + Math.min(1.7 + 0.55 * a, 3 + 2.2 * Math.sqrt(a)));
}
