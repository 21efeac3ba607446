import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import { DiscCoupling } from '../kernel/disc/disc-coupling.ts';
import { createDiscModes } from '../kernel/disc/disc-modes.ts';
import { createDiscPlate } from '../kernel/disc/disc-plate.ts';
import { type DiscResolution, discKey, resolveDisc } from '../kernel/disc/disc-resolution.ts';
import { DiscResponse } from '../kernel/disc/disc-response.ts';
import type { DiscSpec } from '../kernel/disc/disc-spec.ts';
import type { PlateLayer } from '../kernel/plate-reflection.ts';
import type { Coil } from './coil.ts';

/** Plates kept factorised, 50 to 150 kB each: enough for a grid in which coils repeat over a few plates. */
const KEPT = 24;
/** Modes kept, half a MB each. */
const KEPT_MODES = 8;

/**
 * Finite discs, factorised once and shared by every design with the same plate and a coil of the same class. The class
 * comes from the design alone (see disc-resolution), so that what is shared never changes a bit of a row.
 */
export class DiscPlates {
  /** By key, least recently used first. */
  private readonly plates = new Map<string, DiscCoupling>();
  private readonly sections: CoilWinding[] = [];
  /** The disc last prepared, and modes by key, least recently used first. */
  private last: {
    readonly key: string;
    readonly spec: DiscSpec;
    readonly resolution: DiscResolution;
  } | null = null;
  private readonly responses = new Map<string, DiscResponse>();

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
    this.last = { key, spec, resolution };
    return coupling;
  }

  /** The coil over the disc last prepared, at one gap and complex frequencies. */
  respond(gap: number): DiscResponse {
    const { responses } = this;
    const { key, spec, resolution } = this.last!;
    let response = responses.get(key);
    if (response) responses.delete(key);
    else response = new DiscResponse(createDiscModes(spec, resolution));
    responses.set(key, response);
    if (responses.size > KEPT_MODES) responses.delete(responses.keys().next().value!);
    response.fill(this.sections);
    response.at(gap);
    return response;
  }
}
