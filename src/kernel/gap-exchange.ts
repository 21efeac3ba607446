import type { StillAir } from './convection.ts';
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

/** K. */
export interface GapTemperatures {
  face: number;
  plate: number;
  room: number;
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
 *
 * @param open coefficient of the face as though it were open, W/(m2 K)
 */
export function gapExchange(
  filling: GapFilling,
  air: StillAir,
  open: number,
  { outerRadius, emissivity, plateEmissivity }: GapSurfaces,
  { face, plate, room }: GapTemperatures,
  out: GapExchange,
): void {
  const { sheet, sheetConductivity } = filling;
  const under = sheet > 0 ? sheet / sheetConductivity : 0;
  const beside = 1 - filling.overlap;
  const free = beside * (open + emissivity * STEFAN_BOLTZMANN * (face + room) * (face * face + room * room));
  if (!(filling.air > 0)) {
    out.toPlate = filling.overlap / under;
    out.toRoom = free;
    out.plateOpen = 0;
    out.plateSees = 0;
    return;
  }
  const conducted = air.conductivity / filling.air;
  const c3 = conducted * conducted * conducted;
  const sum = c3 + open * open * open;
  const joined = Math.cbrt(sum);
  const across = c3 / sum;
  const ratio = filling.air / outerRadius;
  const square = ratio * ratio;
  const leaving = (2 * square) / (Math.sqrt(square * (square + 4)) + square);
  const facing = facingEmissivity(emissivity, sheet > 0 ? SHEET_EMISSIVITY : plateEmissivity);
  const radiated = (1 - leaving) * facing * STEFAN_BOLTZMANN * (face + plate) * (face * face + plate * plate);
  const direct = across * joined + radiated;
  out.toPlate = (filling.overlap * direct) / (1 + direct * under);
  const past =
    (1 - across) * joined +
    leaving * emissivity * STEFAN_BOLTZMANN * (face + room) * (face * face + room * room);
  out.toRoom = filling.overlap * past + free;
  out.plateOpen = 1 - across;
  out.plateSees = leaving;
}
