import { holdsResistivity, resistivityAt } from '../kernel/resistivity.ts';
import { EDGES, FLOATS, LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import type { DesignBatch } from '../model/rows.ts';
import { REASON } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { type Coil, createCoil } from './coil.ts';
import { createDesignReader } from './design.ts';
import { fillEqualDisc, sidesOf } from './plate-outline.ts';

/**
 * The range of rigs in which the plate laws have been checked against dense quadrature (SI). A design outside it is
 * `impossible`, never a number.
 */
export const CHECKED = Object.freeze({
  innerRadius: { minimum: 2e-3, maximum: 2 },
  outerRadius: { minimum: 4e-3, maximum: 2 },
  sectionSide: { minimum: 0.2e-3, maximum: 0.6 },
  gap: { minimum: 0.05e-3, maximum: 10 },
  plateThickness: { minimum: 5e-6, maximum: Number.POSITIVE_INFINITY },
  frequency: { minimum: 0.5, maximum: 2e5 },
  relativePermeability: { minimum: 1, maximum: 2000 },
  plateResistivity: { minimum: 1e-8, maximum: 1e-5 },
});

/** The finite disc: its radius over the coil's, its thickness, its standoff. */
export const CHECKED_DISC = Object.freeze({
  overCoil: { minimum: 0.2, maximum: 3 },
  thickness: { minimum: 5e-6, maximum: 0.05 },
  gap: { minimum: 0.5e-3, maximum: 1 },
});

/** A disc of one magnetic layer: its radius over the coil's, and its thickness over its radius. */
const CHECKED_STEEL_DISC = Object.freeze({ overCoil: { minimum: 0.5, maximum: 3 }, thickness: 0.1 });

/**
 * Highest gap over a disc, m: the lowest nodes of its integrals follow e^{-k gap} to 1e-5 up to 24 times the coil's or the
 * disc's radius.
 */
export function highestOver(coilRadius: number): number {
  return Math.max(CHECKED_DISC.gap.maximum, Math.min(CHECKED.gap.maximum, 24 * coilRadius));
}

/** A plate of a given radius under this many coil radii has its edge resolved unless the study states otherwise. */
const EDGE_MATTERS = 2;

/** Stainless steel of 1.008 counts as non-magnetic. */
export const MAGNETIC = 1.1;

type Range = { readonly minimum: number; readonly maximum: number };

function outside(value: number, range: Range): boolean {
  // also true for NaN
  return !(value >= range.minimum && value <= range.maximum);
}

export interface Geometry {
  readonly coil: Coil;
  /** Whether the plate's edge is resolved (a finite disc) for the design last filled. */
  edge: boolean;
  /** Kg of the plate with its extra mass; NaN without a radius or of infinite thickness. */
  plateMass: number;
  /** Fills both from a design's inputs; a REASON code, none (0) when the design can be built. */
  fill(slots: Float64Array): number;
}

export function createGeometry(plateLayers: number, windingCount: number): Geometry {
  const coil = createCoil(windingCount);
  const geometry: Geometry = { coil, edge: false, plateMass: Number.NaN, fill };
  return geometry;

  function fill(slots: Float64Array): number {
    const wound = coil.fill(slots);
    if (wound !== REASON.none) return wound;
    const temperatures = checkTemperatures(slots);
    if (temperatures !== REASON.none) return temperatures;
    const range = checkRange(slots);
    if (range !== REASON.none) return range;
    return fillPlate(slots);
  }

  /** Resistivities must be some at the temperatures that they are taken at, and a winding may become warmer than its room. */
  function checkTemperatures(slots: Float64Array): number {
    const room = slots[SLOT.surroundings]!;
    for (let w = 0; w < coil.count; w++) {
      const { temperatureCoefficient: coefficient } = coil.windings[w]!;
      const known =
        holdsResistivity(coefficient, slots[SLOT.coilTemperature]!) && holdsResistivity(coefficient, room);
      if (!known) return REASON.coilResistivity;
    }
    for (let layer = 0; layer < plateLayers; layer++) {
      const at = SLOT.plateLayers + layer * LAYER_SLOTS + METAL_SLOTS.temperatureCoefficient;
      if (!holdsResistivity(slots[at]!, slots[SLOT.plateTemperature]!)) return REASON.plateResistivity;
    }
    return slots[SLOT.thermalClass]! < room ? REASON.classBelowSurroundings : REASON.none;
  }

  function checkRange(slots: Float64Array): number {
    for (let w = 0; w < coil.count; w++) {
      const { innerRadius, outerRadius, height } = coil.windings[w]!.section;
      if (
        outside(innerRadius, CHECKED.innerRadius) ||
        outside(outerRadius, CHECKED.outerRadius) ||
        outside(outerRadius - innerRadius, CHECKED.sectionSide) ||
        outside(height, CHECKED.sectionSide)
      ) {
        return REASON.outsideRange;
      }
    }
    if (outside(slots[SLOT.standoff]!, CHECKED.gap) || outside(slots[SLOT.frequency]!, CHECKED.frequency)) {
      return REASON.outsideRange;
    }
    for (let layer = 0; layer < plateLayers; layer++) {
      const at = SLOT.plateLayers + layer * LAYER_SLOTS;
      if (
        outside(slots[at + LAYER_THICKNESS]!, CHECKED.plateThickness) ||
        outside(resistivityOf(slots, at), CHECKED.plateResistivity) ||
        outside(slots[at + METAL_SLOTS.relativePermeability]!, CHECKED.relativePermeability)
      ) {
        return REASON.outsideRange;
      }
    }
    return REASON.none;
  }

  /** Of a layer at the plate's temperature: what the laws see. */
  function resistivityOf(slots: Float64Array, at: number): number {
    return resistivityAt(
      slots[at + METAL_SLOTS.resistivity]!,
      slots[at + METAL_SLOTS.temperatureCoefficient]!,
      slots[SLOT.plateTemperature]!,
    );
  }

  function fillPlate(slots: Float64Array): number {
    // sides may have been tried at other values than they were read
    fillEqualDisc(slots);
    const radius = slots[SLOT.plateRadius]!;
    const sides = sidesOf(slots);
    if (sides && Number.isNaN(radius)) return REASON.oblong;
    const hole = slots[SLOT.plateInnerRadius]!;
    const wanted = slots[SLOT.plateEdge]!;
    const inner = Number.isNaN(hole) ? 0 : hole;
    if (inner >= radius) return REASON.holeTooWide;
    let magnetic = false;
    let thickness = 0;
    let perArea = 0;
    for (let layer = 0; layer < plateLayers; layer++) {
      const at = SLOT.plateLayers + layer * LAYER_SLOTS;
      if (slots[at + METAL_SLOTS.relativePermeability]! > MAGNETIC) magnetic = true;
      thickness += slots[at + LAYER_THICKNESS]!;
      perArea += slots[at + LAYER_THICKNESS]! * slots[at + METAL_SLOTS.density]!;
    }
    const flat = plateLayers === 1 && inner === 0 && thickness <= CHECKED_STEEL_DISC.thickness * radius;
    const resolvable = thickness !== Number.POSITIVE_INFINITY && (!magnetic || flat);
    const near = radius < EDGE_MATTERS * coil.outerRadius || inner > 0;
    geometry.edge = wanted === EDGES.resolved || (Number.isNaN(wanted) && near && resolvable);
    const whole = sides ? sides[0] * sides[1] : Math.PI * radius * radius;
    const mass = perArea * (whole - Math.PI * inner * inner) + slots[SLOT.plateExtraMass]!;
    geometry.plateMass = mass < Number.POSITIVE_INFINITY ? mass : Number.NaN;
    if (slots[SLOT.floats] === FLOATS.plate && Number.isNaN(geometry.plateMass)) return REASON.outsideRange;
    if (!geometry.edge) return REASON.none;
    if (!resolvable) return REASON.edgeMagnetic;
    const ranges =
      outside(radius / coil.outerRadius, magnetic ? CHECKED_STEEL_DISC.overCoil : CHECKED_DISC.overCoil) ||
      outside(thickness, CHECKED_DISC.thickness) ||
      outside(slots[SLOT.standoff]!, CHECKED_DISC.gap);
    return ranges ? REASON.outsideRange : REASON.none;
  }
}

/**
 * Checks cheaply whether a design can be built at all, without any field: a REASON code, 0 when it can. A study in
 * which no design can is refused before it runs.
 */
export function createGeometryCheck(task: Task): (batch: DesignBatch, index: number) => number {
  const reader = createDesignReader(task);
  const geometry = createGeometry(task.rig.plateLayers, task.rig.windings);
  const width = task.vary.length;
  return (batch, index) => {
    reader.read(batch.values, index * width);
    return geometry.fill(reader.slots);
  };
}
