import type { CoilWinding } from '../../src/kernel/disc/coil-source.ts';
import { DiscCoupling } from '../../src/kernel/disc/disc-coupling.ts';
import { createDiscPlate, type DiscPlate } from '../../src/kernel/disc/disc-plate.ts';
import { resolveDisc } from '../../src/kernel/disc/disc-resolution.ts';
import type { DiscSpec } from '../../src/kernel/disc/disc-spec.ts';

export function winding(
  innerRadius: number,
  outerRadius: number,
  height: number,
  turns: number,
  more: Partial<CoilWinding> = {},
): CoilWinding {
  return { innerRadius, outerRadius, height, turns, offset: 0, sense: 1, ...more };
}

export interface DiscCase {
  radius: number;
  innerRadius?: number;
  /** [thickness, resistivity] */
  layers: [number, number][];
  frequency: number;
}

export function discSpec({ radius, innerRadius = 0, layers, frequency }: DiscCase): DiscSpec {
  return {
    radius,
    innerRadius,
    layers: layers.map(([thickness, resistivity]) => ({ thickness, resistivity })),
    angularFrequency: 2 * Math.PI * frequency,
  };
}

/** A fresh disc and coil, asked at one gap; `nearest`: the smallest gap that will be asked for later. */
export function computeDisc(
  disc: DiscCase,
  windings: readonly CoilWinding[],
  gap: number,
  accuracy?: number,
  nearest = gap,
): { plate: DiscPlate; coupling: DiscCoupling } {
  const spec = discSpec(disc);
  const plate = createDiscPlate(spec, resolveDisc(spec, windings, nearest, accuracy));
  const coupling = new DiscCoupling(plate);
  coupling.fill(windings);
  coupling.evaluate(gap);
  return { plate, coupling };
}

export function relative(value: number, expected: number): number {
  return Math.abs(value / expected - 1);
}
