import { cubicSum } from '../math/roots.ts';
import { airConductivity } from './convection.ts';
import { facingEmissivity, STEFAN_BOLTZMANN } from './radiation.ts';

/** Conductivity of a standoff of plastic or glass cloth, W/(m K): 0.15 to 0.3 (handbooks, from memory). */
export const STANDOFF_CONDUCTIVITY = 0.2;

/** Emissivity of plastics, cloth and paper: 0.9 to 0.95 (from memory). */
const SHEET_EMISSIVITY = 0.9;

/** What lies between winding face and plate: a sheet on the plate (thickness 0: none) and air above it, m. */
export interface GapFilling {
  sheet: number;
  sheetConductivity: number;
  air: number;
  /** Share of the face that lies over the plate. */
  overlap: number;
}

/** Per area of the winding's face, W/(m2 K): to the plate, and past it to the room. */
export interface GapExchange {
  toPlate: number;
  toRoom: number;
  /** How both fluxes rise per kelvin of the winding's face, W/(m2 K). */
  plateSlope: number;
  roomSlope: number;
  /** How the flux to the plate falls per kelvin of the plate, W/(m2 K). */
  plateFall: number;
  /** Of the plate's face under the winding, the part that air reaches, and the part of its view that is the room. */
  plateOpen: number;
  plateSees: number;
}

/** The annulus over the gap, and both emissivities. */
export interface GapSurfaces {
  readonly outerRadius: number;
  readonly emissivity: number;
  readonly plateEmissivity: number;
}

/** K; and of the winding's face as though it were open, flux over excess and how the flux rises, W/(m2 K). */
export interface GapConditions {
  face: number;
  plate: number;
  room: number;
  open: number;
  openSlope: number;
}

/** What of the exchange depends on neither temperature. */
export interface Gap {
  /** m. */
  air: number;
  overlap: number;
  /** Of the sheet, K m2/W; W/(m2 K4) of the winding's face, and of both through the gap; share of the view that is the room. */
  under: number;
  black: number;
  facing: number;
  leaving: number;
}

export function createGap(): Gap {
  return { air: Number.NaN, overlap: 1, under: 0, black: 0, facing: 0, leaving: Number.NaN };
}

export function prepareGap(
  { sheet, sheetConductivity, air, overlap }: GapFilling,
  { outerRadius, emissivity, plateEmissivity }: GapSurfaces,
  out: Gap,
): void {
  const ratio = air / outerRadius;
  const square = ratio * ratio;
  const leaving = air > 0 ? (2 * square) / (Math.sqrt(square * (square + 4)) + square) : 0;
  out.air = air;
  out.overlap = overlap;
  out.under = sheet > 0 ? sheet / sheetConductivity : 0;
  out.black = emissivity * STEFAN_BOLTZMANN;
  out.leaving = leaving;
  out.facing =
    (1 - leaving) *
    facingEmissivity(emissivity, sheet > 0 ? SHEET_EMISSIVITY : plateEmissivity) *
    STEFAN_BOLTZMANN;
}

/**
 * Exchange of the winding's plate-side face: by conduction through the gap's air, kair/air, and by convection to the room
 * as from an open face, hopen, where the gap is wide enough for air to pass. The two are joined by
 *   h = (hc^3 + hopen^3)^(1/3), of which hc^3 / h^3 goes to the plate, the rest to the room
 * so that neither a step nor a kink is left at any gap: conduction alone at small gaps, the open face at large ones.
 * Radiation goes to the plate by the view factor of equal coaxial discs, the rest to the room. A sheet stands in series with
 * what goes to the plate. At rest on a sheet (no air) there is the sheet alone.
 *
 * The joining rule is that of S. W. Churchill and R. Usagi, AIChE J. 18 (1972) 1121 (from memory); its exponent is a
 * judgement. Accuracy: conduction through still air 5 %; where both count, 20 %.
 */
export function gapExchange(gap: Gap, conditions: GapConditions, out: GapExchange): void {
  const { air, overlap, under, black, facing, leaving } = gap;
  const { face, plate, room, open, openSlope } = conditions;
  const cube = face * face * face;
  const toRoom = black * (face + room) * (face * face + room * room);
  const free = (1 - overlap) * (open + toRoom);
  const freeSlope = (1 - overlap) * (openSlope + 4 * black * cube);
  if (!(air > 0)) {
    out.toPlate = overlap / under;
    out.toRoom = free;
    out.plateSlope = out.toPlate;
    out.plateFall = out.toPlate;
    out.roomSlope = freeSlope;
    out.plateOpen = 0;
    out.plateSees = 0;
    return;
  }
  const conducted = airConductivity(face, plate) / air;
  const joined = cubicSum(conducted, open);
  const share = conducted / joined;
  const part = share * share * share;
  const across = part * joined;
  const direct = across + facing * (face + plate) * (face * face + plate * plate);
  const series = 1 / (1 + direct * under);
  out.toPlate = overlap * direct * series;
  const past = joined - across;
  out.toRoom = overlap * (past + leaving * toRoom) + free;
  // the open coefficient grows with the face's excess over the room, and takes from the plate what it gives the room
  const away = face - room;
  const growth = open > 0 ? ((openSlope - open) * away) / (open * (away * away + 1)) : 0;
  // air conducts better where it is hotter
  const warmer = (across * (3 - 2 * part) * WARMER) / (face + plate);
  const rise =
    facing * (3 * face * face + (2 * face + plate) * plate) + warmer - 2 * across * (1 - part) * growth;
  const fall = facing * (3 * plate * plate + (2 * plate + face) * face) + warmer;
  const drop = overlap * (face - plate) * series * series;
  out.plateSlope = out.toPlate + rise * drop;
  out.plateFall = out.toPlate - fall * drop;
  out.roomSlope =
    overlap * (past * (1 + (1 + 2 * part) * growth * away) + 4 * leaving * black * cube) + freeSlope;
  out.plateOpen = 1 - part;
  out.plateSees = leaving;
}

/** The conductivity of air grows about with this power of its temperature. */
const WARMER = 0.8;
