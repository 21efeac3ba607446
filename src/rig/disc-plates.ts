import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import { DiscCoupling } from '../kernel/disc/disc-coupling.ts';
import { createDiscPlate } from '../kernel/disc/disc-plate.ts';
import { discKey, resolveDisc } from '../kernel/disc/disc-resolution.ts';
import type { DiscSpec } from '../kernel/disc/disc-spec.ts';
import type { PlateLayer } from '../kernel/plate-reflection.ts';
import type { Coil } from './coil.ts';

/** Plates kept factorised, 50 to 150 kB each: enough for a grid in which coils repeat over a few plates. */
const KEPT = 24;

/**
 * Finite discs, factorised once and shared by every design with the same plate and a coil of the same class. The class
 * comes from the design alone (see disc-resolution), so that what is shared never changes a bit of a row.
 */
export class DiscPlates {
  /** By key, least recently used first. */
  private readonly plates = new Map<string, DiscCoupling>();
  private readonly sections: CoilWinding[] = [];

  /** The coil over the disc, ready for gaps from `nearest` (m) up; null where the disc cannot be resolved. */
  prepare(
    coil: Coil,
    layers: readonly PlateLayer[],
    layerCount: number,
    radius: number,
    innerRadius: number,
    omega: number,
    nearest: number,
  ): DiscCoupling | null {
    const { plates, sections } = this;
    sections.length = coil.count;
    for (let w = 0; w < coil.count; w++) sections[w] = coil.windings[w]!.section;
    const spec: DiscSpec = {
      radius,
      innerRadius,
      layers: layers.slice(0, layerCount).map(({ thickness, resistivity }) => ({ thickness, resistivity })),
      angularFrequency: omega,
    };
    const resolution = resolveDisc(spec, sections, nearest);
    if (!resolution.adequate) return null;
    const key = discKey(spec, resolution);
    let coupling = plates.get(key);
    if (coupling) plates.delete(key);
    else coupling = new DiscCoupling(createDiscPlate(spec, resolution));
    plates.set(key, coupling);
    if (plates.size > KEPT) plates.delete(plates.keys().next().value!);
    coupling.fill(sections);
    return coupling;
  }
}
