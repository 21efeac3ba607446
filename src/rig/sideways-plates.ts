import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import type { DiscSpec } from '../kernel/disc/disc-spec.ts';
import { DiscWorkspace } from '../kernel/disc/disc-workspace.ts';
import { SidewaysCoupling } from '../kernel/sideways/sideways-coupling.ts';
import { SidewaysPlate } from '../kernel/sideways/sideways-plate.ts';
import { resolveSideways, sidewaysKey } from '../kernel/sideways/sideways-resolution.ts';
import { WideTilt } from '../kernel/sideways/wide-tilt.ts';
import { INSULATION_DENSITY } from '../kernel/winding.ts';
import { FLOATS, LAYER_SLOTS, MAX_LAYERS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { CHECKED_DISC, MAGNETIC } from './geometry.ts';
import { sidesOf } from './plate-outline.ts';
import type { RigState } from './state.ts';

/** Plates kept factorised, up to 2 MB each with ten orders. */
const KEPT = 8;

/** Discs by what they depend on, least recently used first. */
export type KeptSideways = Map<string, SidewaysCoupling>;

/** How the plate answers a coil beside its axis: not at all, as a disc, or in a way that is not known here. */
export type Sideways = SidewaysCoupling | 'wide' | 'unknown';

/**
 * Discs for coils beside their axis, factorised once and shared by every design with the same plate and a coil of the
 * same class, as in disc-plates. Wider than three coil radii a plate has no edge that counts (2e-5 of the weight at 10 mm);
 * magnetic and endless layers are answered for wide plates only, oblong plates not at all.
 */
export class SidewaysPlates {
  private readonly plates: KeptSideways;
  private readonly sections: CoilWinding[] = [];
  private readonly tilt = new WideTilt();
  private readonly workspace = new DiscWorkspace();

  constructor(kept: KeptSideways = new Map()) {
    this.plates = kept;
  }

  /** The coil over its plate at the operating gap. */
  prepare(rig: RigState): Sideways {
    const { coil, slots, layerCount, gap, omega } = rig;
    const { plates, sections } = this;
    sections.length = coil.count;
    for (let w = 0; w < coil.count; w++) sections[w] = coil.windings[w]!.section;
    const radius = slots[SLOT.plateRadius]!;
    const over = radius / coil.outerRadius;
    if (!(over < CHECKED_DISC.overCoil.maximum)) return 'wide';
    const sides = sidesOf(slots);
    const hole = slots[SLOT.plateInnerRadius]!;
    let thickness = 0;
    let magnetic = false;
    for (let j = 0; j < layerCount; j++) {
      const layer = rig.layers[j]!;
      thickness += layer.thickness;
      magnetic ||= layer.relativePermeability > MAGNETIC;
    }
    if (
      magnetic ||
      thickness > CHECKED_DISC.thickness.maximum ||
      over < CHECKED_DISC.overCoil.minimum ||
      gap < CHECKED_DISC.gap.minimum ||
      (sides && sides[0] !== sides[1])
    ) {
      return 'unknown';
    }
    const spec: DiscSpec = {
      radius,
      innerRadius: Number.isNaN(hole) ? 0 : hole,
      layers: rig.layers
        .slice(0, layerCount)
        .map((layer) => ({ thickness: layer.thickness, resistivity: layer.resistivity })),
      angularFrequency: omega,
    };
    const resolution = resolveSideways(spec, sections, gap);
    if (!resolution.adequate) return 'unknown';
    const key = sidewaysKey(spec, resolution);
    let coupling = plates.get(key);
    if (coupling) plates.delete(key);
    else coupling = new SidewaysCoupling(new SidewaysPlate(spec, resolution, this.workspace));
    plates.set(key, coupling);
    if (plates.size > KEPT) plates.delete(plates.keys().next().value!);
    coupling.fill(sections, gap, aboveFace(rig));
    return coupling;
  }

  /** d2 Re dL / d theta2 over a plate without an edge, H/rad2. */
  wideTurn(rig: RigState): number {
    const { layers, layerCount, omega, gap } = rig;
    return this.tilt.evaluate(this.sections, layers, layerCount, omega, gap, aboveFace(rig));
  }
}

/** Why a plate's answer to a coil beside its axis is not known, from a design's inputs; null where nothing speaks against it. */
export function whyNoSideways(coilRadius: number, slots: Float64Array): string | null {
  if (!(slots[SLOT.plateRadius]! / coilRadius < CHECKED_DISC.overCoil.maximum)) return null;
  const sides = sidesOf(slots);
  if (sides && sides[0] !== sides[1]) {
    return 'the force sideways over an oblong plate is not that of the disc that lifts alike, and is not computed';
  }
  for (let layer = 0; layer < MAX_LAYERS; layer++) {
    const at = SLOT.plateLayers + layer * LAYER_SLOTS + METAL_SLOTS.relativePermeability;
    if (slots[at]! > MAGNETIC) return 'the force sideways over a magnetic plate with an edge is not computed';
  }
  return null;
}

/**
 * Where the floating part's centre of mass is, m above the coil's plate-side face: of the windings, each in its middle
 * (extra mass with them), or of the plate's layers, which lie the gap and half their depth below.
 */
function aboveFace(rig: RigState): number {
  const { coil, slots, layers, layerCount, gap } = rig;
  let mass = 0;
  let moment = 0;
  if (rig.floating === FLOATS.plate) {
    let depth = 0;
    for (let j = 0; j < layerCount; j++) {
      const density = slots[SLOT.plateLayers + j * LAYER_SLOTS + METAL_SLOTS.density]!;
      const { thickness } = layers[j]!;
      mass += density * thickness;
      moment += density * thickness * (depth + thickness / 2);
      depth += thickness;
    }
    return -gap - moment / mass;
  }
  for (let w = 0; w < coil.count; w++) {
    const { section, winding, input } = coil.windings[w]!;
    const conductor = input.density * winding.conductorArea;
    const insulation = INSULATION_DENSITY * (winding.coveredArea - winding.conductorArea);
    const own = (conductor + insulation) * winding.length;
    mass += own;
    moment += own * (section.offset + section.height / 2);
  }
  return moment / mass;
}
