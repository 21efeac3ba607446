import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import { DiscCoupling } from '../kernel/disc/disc-coupling.ts';
import { createDiscModes, type DiscModes } from '../kernel/disc/disc-modes.ts';
import { createDiscPlate } from '../kernel/disc/disc-plate.ts';
import { type DiscResolution, discKey, resolveRig } from '../kernel/disc/disc-resolution.ts';
import { DiscResponse } from '../kernel/disc/disc-response.ts';
import type { DiscSpec } from '../kernel/disc/disc-spec.ts';
import { DiscWorkspace } from '../kernel/disc/disc-workspace.ts';
import type { PlateStack } from '../kernel/plate-reflection.ts';
import type { Coil } from './coil.ts';

/** Plates kept factorised, 50 to 150 kB each: enough for a grid in which coils repeat over a few plates. */
const KEPT = 24;
/** Discs as modes, by what they depend on, least recently used first. */
export type KeptModes = Map<string, DiscModes>;

/** Modes kept, half a MB each. */
const KEPT_MODES = 8;
/** Polynomials over the radius of a disc whose motion in time is computed. */
const MOST_MODES = 128;

/**
 * Finite discs, factorised once and shared by every design with the same plate and a coil of the same class. The class
 * comes from the design alone (see disc-resolution), so that what is shared never changes a bit of a row.
 */
export class DiscPlates {
  /** By key, least recently used first. */
  private readonly plates = new Map<string, DiscCoupling>();
  private readonly sections: CoilWinding[] = [];
  /** The disc last prepared. */
  private last: {
    readonly key: string;
    readonly spec: DiscSpec;
    readonly resolution: DiscResolution;
  } | null = null;
  private readonly kept: KeptModes;
  private readonly workspace = new DiscWorkspace();

  constructor(kept: KeptModes = new Map()) {
    this.kept = kept;
  }

  /**
   * The coil over the disc, ready for gaps from `nearest` (m) up; null where the disc cannot be resolved. Where its
   * `cut` is finite it is the coarse part of the coil's field alone (see split-coupling).
   */
  prepare(
    coil: Coil,
    { layers, layerCount, omega }: PlateStack,
    radius: number,
    innerRadius: number,
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
    const resolution = resolveRig(spec, sections, nearest);
    if (!resolution.adequate) return null;
    const key = discKey(spec, resolution);
    let coupling = plates.get(key);
    if (coupling) plates.delete(key);
    else coupling = new DiscCoupling(createDiscPlate(spec, resolution, this.workspace));
    plates.set(key, coupling);
    if (plates.size > KEPT) plates.delete(plates.keys().next().value!);
    coupling.fill(sections);
    this.last = { key, spec, resolution };
    return coupling;
  }

  /** The disc last prepared, as modes; null where these would take too long. */
  modes(): DiscModes | null {
    const { key, spec, resolution } = this.last!;
    return resolution.smooth > MOST_MODES ? null : this.modesOf(key, spec, resolution);
  }

  /** The coil over the disc last prepared, at one gap and complex frequencies. */
  respond(gap: number): DiscResponse {
    const { key, spec, resolution } = this.last!;
    const response = new DiscResponse(this.modesOf(key, spec, resolution));
    response.fill(this.sections);
    response.at(gap);
    return response;
  }

  private modesOf(key: string, spec: DiscSpec, resolution: DiscResolution): DiscModes {
    const { kept } = this;
    let modes = kept.get(key);
    if (modes) kept.delete(key);
    else modes = createDiscModes(spec, resolution, this.workspace);
    kept.set(key, modes);
    if (kept.size > KEPT_MODES) kept.delete(kept.keys().next().value!);
    return modes;
  }
}
