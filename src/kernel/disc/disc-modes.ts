import { symmetricEigen } from '../../math/symmetric-eigen.ts';
import { discCircuits } from './disc-plate.ts';
import type { DiscResolution } from './disc-resolution.ts';
import type { DiscSpec } from './disc-spec.ts';
import { DiscWorkspace } from './disc-workspace.ts';
import type { SpatialNodes } from './spatial-nodes.ts';

/**
 * A disc as modes: current patterns that fade by themselves, each at a rate lambda of its own, without the others:
 *   M V = R V / lambda,  V^T M V = 1,  V^T R V = lambda,
 * R and M the resistances and inductances of disc-plate. In time mode n carries y_n (its current times the root of its
 * inductance, in W^(1/2) s^(1/2)) with y' + lambda y = -d/dt(s(gap) i), s the coil's coupling to it in H^(1/2); at p
 *   D(g1, g2, p) = -sum s(g1) s(g2) p / (p + lambda).
 *
 * R is diagonal, so that with w, mu the orthonormal eigenvectors and eigenvalues of R^(-1/2) M R^(-1/2):
 * V = R^(-1/2) w / mu^(1/2), lambda = 1 / mu. Patterns so fine that mu is rounding are left out: they fade at once.
 */
export interface DiscModes {
  readonly spec: DiscSpec;
  readonly resolution: DiscResolution;
  readonly count: number;
  /** lambda, 1/s, rising. */
  readonly rates: Float64Array;
  readonly nodes: SpatialNodes;
  /** What the field of a coil at a node induces in a mode: row-major modes x nodes; s = sum over nodes, times a(k) e^{-k gap}. */
  readonly excitation: Float64Array;
}

/** Below this share of the largest, mu is not known to three digits. */
const LEAST = 1e-12;

/** Costs ten to a hundred ms. */
export function createDiscModes(
  spec: DiscSpec,
  resolution: DiscResolution,
  workspace = new DiscWorkspace(),
): DiscModes {
  const { blocks, unknowns, nodes, excited } = discCircuits(spec, resolution, workspace);
  const found: { readonly mu: number; readonly row: Float64Array }[] = [];
  let start = 0;
  for (const { size, re, im } of blocks) {
    const roots = Float64Array.from({ length: size }, (_, i) => Math.sqrt(re[i * size + i]!));
    const a = new Float64Array(size * size);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j <= i; j++) {
        const value = im[i * size + j]! / (spec.angularFrequency * roots[i]! * roots[j]!);
        a[i * size + j] = value;
        a[j * size + i] = value;
      }
    }
    const values = new Float64Array(size);
    const pattern = new Float64Array(size);
    symmetricEigen(size, a, values);
    const largest = values.reduce((most, value) => Math.max(most, value), 0);
    for (let n = 0; n < size; n++) {
      const mu = values[n]!;
      if (!(mu > LEAST * largest)) continue;
      const scale = 1 / Math.sqrt(mu);
      for (let i = 0; i < size; i++) pattern[i] = (scale * a[i * size + n]!) / roots[i]!;
      const row = new Float64Array(nodes.count);
      for (let q = 0; q < nodes.count; q++) row[q] = product(pattern, excited, q * unknowns + start, size);
      found.push({ mu, row });
    }
    start += size;
  }
  found.sort((one, other) => other.mu - one.mu);
  const excitation = new Float64Array(found.length * nodes.count);
  found.forEach(({ row }, n) => {
    excitation.set(row, n * nodes.count);
  });
  return {
    spec,
    resolution,
    count: found.length,
    rates: Float64Array.from(found, ({ mu }) => 1 / mu),
    nodes,
    excitation,
  };
}

function product(pattern: Float64Array, excited: Float64Array, from: number, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i++) sum += pattern[i]! * excited[from + i]!;
  return sum;
}
