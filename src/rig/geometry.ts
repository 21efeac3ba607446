import { fillWinding, HEXAGONAL_PACKING, type Winding, type WindingInput } from '../kernel/winding.ts';
import { LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import type { DesignBatch } from '../model/rows.ts';
import { REASON } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { enamelThickness } from '../model/wires.ts';
import { createDesignReader } from './design.ts';

/**
 * The range of rigs in which the wide-plate physics has been checked against dense quadrature (SI). A design
 * outside it is `impossible`, never a number.
 */
export const CHECKED = Object.freeze({
  innerRadius: { minimum: 2e-3, maximum: 2 },
  outerRadius: { minimum: 4e-3, maximum: 2 },
  sectionSide: { minimum: 0.2e-3, maximum: 0.6 },
  gap: { minimum: 0.05e-3, maximum: 1 },
  plateThickness: { minimum: 5e-6, maximum: Number.POSITIVE_INFINITY },
  frequency: { minimum: 0.5, maximum: 2e5 },
  relativePermeability: { minimum: 1, maximum: 2000 },
  plateResistivity: { minimum: 1e-8, maximum: 1e-5 },
});

type Range = { readonly minimum: number; readonly maximum: number };

function outside(value: number, range: Range): boolean {
  // also true for NaN
  return !(value >= range.minimum && value <= range.maximum);
}

export interface Geometry {
  readonly winding: Winding;
  /** Fills `winding` from a design's inputs; a REASON code, none (0) when the design can be wound. */
  fill(slots: Float64Array): number;
}

export function createGeometry(plateLayers: number): Geometry {
  const input: WindingInput = {
    wire: 0,
    insulation: 0,
    strands: 1,
    turns: 0,
    layers: 0,
    innerRadius: 0,
    sectionOuterRadius: 0,
    sectionHeight: 0,
    density: 0,
    extraMass: 0,
  };
  const winding: Winding = {
    outerRadius: 0,
    height: 0,
    length: 0,
    mass: 0,
    conductorArea: 0,
    coveredArea: 0,
    spaceFactor: 0,
    packing: 0,
  };
  return { winding, fill };

  function fill(slots: Float64Array): number {
    const grade = slots[SLOT.insulationGrade]!;
    input.wire = slots[SLOT.wire]!;
    input.insulation = Number.isNaN(grade)
      ? slots[SLOT.insulationThickness]!
      : enamelThickness(input.wire, grade);
    input.strands = slots[SLOT.strands]!;
    input.turns = slots[SLOT.turns]!;
    input.layers = slots[SLOT.layers]!;
    input.innerRadius = slots[SLOT.innerRadius]!;
    input.sectionOuterRadius = slots[SLOT.sectionOuterRadius]!;
    input.sectionHeight = slots[SLOT.sectionHeight]!;
    input.density = slots[SLOT.coilMetal + METAL_SLOTS.density]!;
    input.extraMass = slots[SLOT.coilExtraMass]!;

    if (Number.isNaN(input.insulation)) return REASON.noEnamel;
    if (input.sectionOuterRadius <= input.innerRadius) return REASON.sectionInverted;
    if (input.layers > input.turns * input.strands) return REASON.layersOverTurns;
    fillWinding(input, winding);
    if (!Number.isNaN(input.sectionOuterRadius) && winding.packing > HEXAGONAL_PACKING) return REASON.noFit;
    return checkRange(slots);
  }

  function checkRange(slots: Float64Array): number {
    if (
      outside(input.innerRadius, CHECKED.innerRadius) ||
      outside(winding.outerRadius, CHECKED.outerRadius) ||
      outside(winding.outerRadius - input.innerRadius, CHECKED.sectionSide) ||
      outside(winding.height, CHECKED.sectionSide) ||
      outside(slots[SLOT.standoff]!, CHECKED.gap) ||
      outside(slots[SLOT.frequency]!, CHECKED.frequency)
    ) {
      return REASON.outsideRange;
    }
    for (let layer = 0; layer < plateLayers; layer++) {
      const at = SLOT.plateLayers + layer * LAYER_SLOTS;
      if (
        outside(slots[at + LAYER_THICKNESS]!, CHECKED.plateThickness) ||
        outside(slots[at + METAL_SLOTS.resistivity]!, CHECKED.plateResistivity) ||
        outside(slots[at + METAL_SLOTS.relativePermeability]!, CHECKED.relativePermeability)
      ) {
        return REASON.outsideRange;
      }
    }
    return REASON.none;
  }
}

/**
 * Tells cheaply whether a design can be wound at all, without any field: a REASON code, 0 when it can. A study in
 * which no design can is refused before it runs.
 */
export function createGeometryCheck(task: Task): (batch: DesignBatch, index: number) => number {
  const reader = createDesignReader(task);
  const geometry = createGeometry(task.rig.plateLayers);
  const width = task.vary.length;
  return (batch, index) => {
    reader.read(batch.values, index * width);
    return geometry.fill(reader.slots);
  };
}
