import { WINDING_EMISSIVITY, type WindingBody, WindingHeat } from '../kernel/coil-heat.ts';
import { STANDOFF_CONDUCTIVITY } from '../kernel/gap-exchange.ts';
import { discHeatCapacity, PLATE_EMISSIVITY, type PlateBody, PlateHeat } from '../kernel/plate-heat.ts';
import { RigHeat } from '../kernel/rig-heat.ts';
import { COVER, type Vessel, WATER_SPECIFIC_HEAT, wallHeight } from '../kernel/vessel-heat.ts';
import { INSULATION_DENSITY } from '../kernel/winding.ts';
import { windingConductivity } from '../kernel/winding-conductivity.ts';
import { FLOATS, LAYER_SLOTS, MAX_LAYERS, MAX_WINDINGS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import type { RigState } from './state.ts';
import type { WindingResistance } from './winding-resistance.ts';

/** Specific heat of enamels and similar plastics, J/(kg K) (common practice, no source). */
const INSULATION_SPECIFIC_HEAT = 1400;

/**
 * Emissivity of the plate: bare aluminium sheet, the usual plate. Oxidised, painted or steel plates radiate more and
 * stay cooler than computed.
 */
const EMISSIVITY = PLATE_EMISSIVITY.aluminium;

/** The warm bodies of a design: what heats, where it touches what, and what stands on it. One set a user; filled anew. */
export interface HeatBodies {
  readonly heat: RigHeat;
  readonly count: number;
  /** Shapes, materials and losses of the design in hand at its operating point, W in the plate, without a load. */
  fill(rig: RigState, resistance: WindingResistance, plateLoss: number): void;
  /** Its losses at a current in A (each winding's at the resistance last evaluated), W in the plate, at a gap in m. */
  drive(rig: RigState, resistance: WindingResistance, current: number, gap: number, plateLoss: number): void;
  /** Puts the load's vessel on the plate. */
  load(rig: RigState): void;
}

/** Whether the plate is a body of known size. */
function isPlateBounded(rig: RigState): boolean {
  return Number.isFinite(plateThickness(rig)) && !Number.isNaN(rig.slots[SLOT.plateRadius]!);
}

export function heatBodies(): HeatBodies {
  const windingBodies = Array.from({ length: MAX_WINDINGS }, emptyBody);
  const windings = windingBodies.map(() => new WindingHeat());
  const plate = new PlateHeat();
  const heat = new RigHeat(windings, plate);
  const plateBody = emptyPlate();
  const vessel: Vessel = { radius: 0, capacity: 0, wall: 0, cover: COVER.lid };
  const metals = Array.from({ length: MAX_LAYERS }, () => ({ density: 0, specificHeat: 0, thickness: 0 }));
  let count = 0;
  return {
    heat,
    get count() {
      return count;
    },
    fill(rig, resistance, plateLoss) {
      const { coil, slots } = rig;
      count = coil.count;
      for (let w = 0; w < count; w++) {
        fillWinding(rig, w, windingBodies[w]!);
      }
      drive(rig, resistance, rig.current, rig.gap, plateLoss);
      for (let w = 0; w < count; w++) windings[w]!.prepare(windingBodies[w]!);
      const bounded = isPlateBounded(rig);
      if (bounded) fillPlate(rig, plateBody, metals);
      plate.prepare(plateBody);
      heat.prepare(count, slots[SLOT.surroundings]!);
      heat.plateHeld = !bounded;
    },
    drive,
    load({ slots }) {
      const water = slots[SLOT.loadWater]!;
      vessel.radius = plateBody.radius;
      vessel.capacity = water * WATER_SPECIFIC_HEAT;
      vessel.wall = wallHeight(water, plateBody.radius);
      vessel.cover = slots[SLOT.loadCover]!;
      plate.vessel = vessel;
      heat.plateMost = slots[SLOT.loadTo]!;
    },
  };

  function drive(
    rig: RigState,
    resistance: WindingResistance,
    current: number,
    gap: number,
    plateLoss: number,
  ): void {
    const square = current * current;
    for (let w = 0; w < count; w++) {
      const body = windingBodies[w]!;
      const dc20 = resistance.dc20[w]!;
      const dc = resistance.dc[w]!;
      body.dcLoss = square * dc20;
      // what skin and proximity effect add, at 20 degC: they fall as the metal's resistivity rises
      body.acLoss = (square * (resistance.ac[w]! - dc) * dc) / dc20;
      placeAt(rig, w, gap, body);
    }
    plateBody.loss = plateLoss;
  }
}

function fillWinding(rig: RigState, w: number, body: WindingBody): void {
  const { slots } = rig;
  const { winding, section, input, specificHeat, temperatureCoefficient } = rig.coil.windings[w]!;
  const own = slots[SLOT.windingConductivity]!;
  body.innerRadius = section.innerRadius;
  body.outerRadius = section.outerRadius;
  body.height = section.height;
  // a coil that floats lies over its plate; one under a floating plate or a pan looks down with its far face
  body.farFaceUp = rig.floating === FLOATS.coil;
  body.surroundings = slots[SLOT.surroundings]!;
  body.conductivity = Number.isNaN(own)
    ? windingConductivity(slots[SLOT.windingKind]!, winding.spaceFactor)
    : own;
  const conductor = winding.length * winding.conductorArea * input.density;
  const enamel = winding.length * (winding.coveredArea - winding.conductorArea) * INSULATION_DENSITY;
  body.heatCapacity = conductor * specificHeat + enamel * INSULATION_SPECIFIC_HEAT;
  body.temperatureCoefficient = temperatureCoefficient;
  body.filling.overlap = overlapOf(rig, section.innerRadius, section.outerRadius);
}

/**
 * A standoff given with its breakdown strength or its conductivity is a sheet; a bare length is feet or ribs with air
 * between them.
 */
function placeAt({ slots, coil }: RigState, w: number, gap: number, { filling }: WindingBody): void {
  const standoff = slots[SLOT.standoff]!;
  const conductivity = slots[SLOT.standoffConductivity]!;
  const isSheet = !Number.isNaN(conductivity) || !Number.isNaN(slots[SLOT.standoffBreakdown]!);
  filling.sheet = isSheet ? standoff : 0;
  filling.sheetConductivity = Number.isNaN(conductivity) ? STANDOFF_CONDUCTIVITY : conductivity;
  filling.air = Math.max(0, gap - filling.sheet) + coil.windings[w]!.section.offset;
}

/** Share of an annulus that lies over the plate. */
function overlapOf({ slots }: RigState, inner: number, outer: number): number {
  const radius = slots[SLOT.plateRadius]!;
  if (Number.isNaN(radius)) return 1;
  const hole = holeOf(slots);
  const from = Math.max(inner, hole);
  const to = Math.min(outer, radius);
  return Math.max(0, to * to - from * from) / (outer * outer - inner * inner);
}

function holeOf(slots: Float64Array): number {
  const hole = slots[SLOT.plateInnerRadius]!;
  return Number.isNaN(hole) ? 0 : hole;
}

function plateThickness(rig: RigState): number {
  let thickness = 0;
  for (let j = 0; j < rig.layerCount; j++) thickness += rig.layers[j]!.thickness;
  return thickness;
}

function fillPlate(
  rig: RigState,
  body: PlateBody,
  metals: { density: number; specificHeat: number; thickness: number }[],
): void {
  const { slots, layerCount } = rig;
  for (let j = 0; j < layerCount; j++) {
    const at = SLOT.plateLayers + j * LAYER_SLOTS;
    const metal = metals[j]!;
    metal.density = slots[at + METAL_SLOTS.density]!;
    metal.specificHeat = slots[at + METAL_SLOTS.specificHeat]!;
    metal.thickness = rig.layers[j]!.thickness;
  }
  body.radius = slots[SLOT.plateRadius]!;
  body.innerRadius = holeOf(slots);
  body.thickness = plateThickness(rig);
  // a coil that floats lies over its plate; a floating plate or a pan lies over its coil
  body.coilFaceUp = rig.floating === FLOATS.coil;
  body.surroundings = slots[SLOT.surroundings]!;
  body.heatCapacity = discHeatCapacity(metals, layerCount, body.radius, body.innerRadius);
}

function emptyBody(): WindingBody {
  return {
    innerRadius: 0,
    outerRadius: 0,
    height: 0,
    farFaceUp: true,
    conductivity: 1,
    filling: { sheet: 0, sheetConductivity: 1, air: Number.NaN, overlap: 1 },
    emissivity: WINDING_EMISSIVITY,
    plateEmissivity: EMISSIVITY,
    surroundings: 0,
    heatCapacity: 0,
    dcLoss: 0,
    acLoss: 0,
    temperatureCoefficient: 0,
  };
}

function emptyPlate(): PlateBody {
  return {
    radius: 0,
    innerRadius: 0,
    thickness: 0,
    coilFaceUp: true,
    farFaceOpen: false,
    emissivity: EMISSIVITY,
    surroundings: 0,
    heatCapacity: 0,
    loss: 0,
  };
}
