import { MU0 } from '../constants.ts';
import type { CoilWinding } from '../disc/coil-source.ts';
import { spatialNodes } from '../disc/spatial-nodes.ts';
import { type PlateLayer, PlateReflection } from '../plate-reflection.ts';
import { skinDepth } from '../skin-depth.ts';
import { MovingSource } from './moving-source.ts';

const FAINT = 12;
/** Spatial frequencies beyond this many over the narrowest winding's width add nothing that counts. */
const NARROW = 40;
/** At most this many outer radii's worth of oscillation. */
const MOST = 2500;

/**
 * d2 Re dL / d theta2 of a coil that leans over an infinitely wide plate, H/rad2: about a point `above` its
 * plate-side face. The plate answers every wave alike whichever way it runs, so with gamma as in moving-source and
 * the plate's reflection Gamma
 *   d2 dL / d theta2 = pi mu0 int Gamma k (k gamma'^2 - 2 gamma gamma' - k gamma gamma'') e^{-2k(gap + s)} dk;
 * a shift changes nothing. Lengths in m. Accuracy: 1e-4 (tests, by circles and their images in three dimensions).
 */
export class WideTilt {
  private readonly reflection = new PlateReflection();
  private readonly source = new MovingSource();

  evaluate(
    windings: readonly CoilWinding[],
    layers: readonly PlateLayer[],
    layerCount: number,
    omega: number,
    gap: number,
    above: number,
  ): number {
    let reach = 0;
    let narrowest = Number.POSITIVE_INFINITY;
    let nearest = Number.POSITIVE_INFINITY;
    for (const { innerRadius, outerRadius, offset } of windings) {
      reach = Math.max(reach, outerRadius);
      narrowest = Math.min(narrowest, outerRadius - innerRadius);
      nearest = Math.min(nearest, offset);
    }
    let slow = 2 * reach;
    for (let j = 0; j < layerCount; j++) {
      const { resistivity, relativePermeability, thickness } = layers[j]!;
      const depth = skinDepth(resistivity, relativePermeability, omega);
      slow = Math.max(slow, relativePermeability * depth * Math.max(1, depth / thickness));
    }
    const cutoff = Math.min(FAINT / (gap + nearest), NARROW / narrowest, MOST / reach);
    const { k, weight, count } = spatialNodes(cutoff, 2 * reach, Math.min(slow, 1e4 * reach));
    this.reflection.fill(layers, layerCount, omega, k, count);
    const { source } = this;
    let sum = 0;
    for (let i = 0; i < count; i++) {
      const x = k[i]!;
      source.evaluate(windings, x, above);
      const { value, slope, curvature } = source;
      const shape = x * (x * slope * slope - 2 * value * slope - x * value * curvature);
      sum += weight[i]! * this.reflection.re[i]! * shape * Math.exp(-2 * x * gap);
    }
    return Math.PI * MU0 * sum;
  }
}
