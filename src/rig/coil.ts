import { fillWinding, HEXAGONAL_PACKING, type Winding, type WindingInput } from '../kernel/winding.ts';
import { METAL_SLOTS, SLOT, WINDING, WINDING_SLOTS } from '../model/inputs.ts';
import { REASON } from '../model/status.ts';
import { enamelThickness } from '../model/wires.ts';

/** One winding of the coil in hand: what it is wound of, and what came of it. SI; overwritten by each design. */
export interface Wound {
  readonly input: WindingInput;
  readonly winding: Winding;
  /** Its section, as the field laws take it. */
  readonly section: {
    innerRadius: number;
    outerRadius: number;
    height: number;
    turns: number;
    /** From the coil's plate-side face. */
    offset: number;
    sense: 1 | -1;
  };
  /** Of the conductor, at 20 degC. */
  resistivity: number;
  temperatureCoefficient: number;
  specificHeat: number;
  relativePermeability: number;
  insulationGrade: number;
}

/** The coil in hand: one winding, or several in series. */
export interface Coil {
  readonly windings: readonly Wound[];
  count: number;
  /** Of all windings: wire, m; mass with extra mass, kg. */
  length: number;
  mass: number;
  outerRadius: number;
  /** From the coil's plate-side face to the far end of the farthest winding. */
  height: number;
  turns: number;
  spaceFactor: number;
  /** Tightest of the windings. */
  packing: number;
  /** Smallest bare conductor area of the windings, m2: where the current is densest. */
  conductorArea: number;
  /** Fills the coil from a design's inputs; a REASON code, none (0) when it can be wound. */
  fill(slots: Float64Array): number;
}

export function createCoil(windingCount: number): Coil {
  const several = windingCount > 0;
  const coil: Coil = {
    windings: Array.from({ length: Math.max(1, windingCount) }, emptyWinding),
    count: Math.max(1, windingCount),
    length: 0,
    mass: 0,
    outerRadius: 0,
    height: 0,
    turns: 0,
    spaceFactor: 0,
    packing: 0,
    conductorArea: 0,
    fill,
  };
  return coil;

  function fill(slots: Float64Array): number {
    coil.length = 0;
    coil.mass = slots[SLOT.coilExtraMass]!;
    coil.outerRadius = 0;
    coil.height = 0;
    coil.turns = 0;
    coil.packing = 0;
    coil.conductorArea = Number.POSITIVE_INFINITY;
    let bare = 0;
    let area = 0;
    for (let w = 0; w < coil.count; w++) {
      const wound = coil.windings[w]!;
      if (several) readWinding(slots, SLOT.windings + w * WINDING_SLOTS, wound);
      else readCoil(slots, wound);
      const reason = wind(wound);
      if (reason !== REASON.none) return reason;
      const { winding, section } = wound;
      coil.length += winding.length;
      coil.mass += winding.mass;
      coil.outerRadius = Math.max(coil.outerRadius, winding.outerRadius);
      coil.height = Math.max(coil.height, section.offset + section.height);
      coil.turns += section.turns;
      coil.packing = Math.max(coil.packing, winding.packing);
      coil.conductorArea = Math.min(coil.conductorArea, winding.conductorArea);
      const own = section.height * (section.outerRadius - section.innerRadius);
      area += own;
      bare += winding.spaceFactor * own;
    }
    coil.spaceFactor = bare / area;
    return REASON.none;
  }
}

/** The coil's own words describe its one winding. */
function readCoil(slots: Float64Array, wound: Wound): void {
  const { input, section } = wound;
  readMetal(slots, SLOT.coilMetal, wound);
  input.wire = slots[SLOT.wire]!;
  input.strands = slots[SLOT.strands]!;
  input.transposed = slots[SLOT.transposed]!;
  wound.insulationGrade = slots[SLOT.insulationGrade]!;
  input.insulation = slots[SLOT.insulationThickness]!;
  input.turns = slots[SLOT.turns]!;
  input.layers = slots[SLOT.layers]!;
  input.innerRadius = slots[SLOT.innerRadius]!;
  input.sectionOuterRadius = slots[SLOT.sectionOuterRadius]!;
  input.sectionHeight = slots[SLOT.sectionHeight]!;
  section.offset = 0;
  section.sense = 1;
}

/** A winding's own words, and the coil's for what it leaves out. */
function readWinding(slots: Float64Array, at: number, wound: Wound): void {
  const { input, section } = wound;
  const or = (own: number, shared: number) => (Number.isNaN(own) ? slots[shared]! : own);
  readMetal(slots, Number.isNaN(slots[at]!) ? SLOT.coilMetal : at, wound);
  input.wire = or(slots[at + WINDING.wire]!, SLOT.wire);
  input.strands = or(slots[at + WINDING.strands]!, SLOT.strands);
  input.transposed = or(slots[at + WINDING.transposed]!, SLOT.transposed);
  const ownGrade = slots[at + WINDING.insulationGrade]!;
  const ownThickness = slots[at + WINDING.insulationThickness]!;
  const insulated = !Number.isNaN(ownGrade) || !Number.isNaN(ownThickness);
  wound.insulationGrade = insulated ? ownGrade : slots[SLOT.insulationGrade]!;
  input.insulation = insulated ? ownThickness : slots[SLOT.insulationThickness]!;
  input.turns = slots[at + WINDING.turns]!;
  input.layers = or(slots[at + WINDING.layers]!, SLOT.layers);
  input.innerRadius = slots[at + WINDING.innerRadius]!;
  input.sectionOuterRadius = slots[at + WINDING.sectionOuterRadius]!;
  input.sectionHeight = slots[at + WINDING.sectionHeight]!;
  const offset = slots[at + WINDING.offset]!;
  section.offset = Number.isNaN(offset) ? 0 : offset;
  section.sense = slots[at + WINDING.sense]! < 0 ? -1 : 1;
}

function readMetal(slots: Float64Array, at: number, wound: Wound): void {
  wound.resistivity = slots[at + METAL_SLOTS.resistivity]!;
  wound.temperatureCoefficient = slots[at + METAL_SLOTS.temperatureCoefficient]!;
  wound.input.density = slots[at + METAL_SLOTS.density]!;
  wound.specificHeat = slots[at + METAL_SLOTS.specificHeat]!;
  wound.relativePermeability = slots[at + METAL_SLOTS.relativePermeability]!;
}

function wind(wound: Wound): number {
  const { input, winding, section } = wound;
  if (!Number.isNaN(wound.insulationGrade)) {
    input.insulation = enamelThickness(input.wire, wound.insulationGrade);
  }
  if (Number.isNaN(input.insulation)) return REASON.noEnamel;
  if (input.sectionOuterRadius <= input.innerRadius) return REASON.sectionInverted;
  if (input.layers > input.turns * input.strands) return REASON.layersOverTurns;
  fillWinding(input, winding);
  if (!Number.isNaN(input.sectionOuterRadius) && winding.packing > HEXAGONAL_PACKING) return REASON.noFit;
  section.innerRadius = input.innerRadius;
  section.outerRadius = winding.outerRadius;
  section.height = winding.height;
  section.turns = input.turns;
  return REASON.none;
}

function emptyWinding(): Wound {
  return {
    input: {
      wire: 0,
      insulation: 0,
      strands: 1,
      transposed: Number.NaN,
      turns: 0,
      layers: 0,
      innerRadius: 0,
      sectionOuterRadius: 0,
      sectionHeight: 0,
      density: 0,
      extraMass: 0,
    },
    winding: {
      outerRadius: 0,
      height: 0,
      length: 0,
      mass: 0,
      conductorArea: 0,
      coveredArea: 0,
      spaceFactor: 0,
      packing: 0,
    },
    section: { innerRadius: 0, outerRadius: 0, height: 0, turns: 0, offset: 0, sense: 1 },
    resistivity: 0,
    temperatureCoefficient: 0,
    specificHeat: 0,
    relativePermeability: 1,
    insulationGrade: 0,
  };
}
