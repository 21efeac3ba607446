import { type Air, airProperties } from './air.ts';
import { GRAVITY } from './constants.ts';

/**
 * Natural convection from isothermal surfaces in still air: mean heat transfer coefficients, W/(m2 K).
 *
 * `still` holds what depends on the two temperatures alone, so that several faces of one body share it.
 * Source of all: F. P. Incropera, D. P. DeWitt, T. L. Bergman, A. S. Lavine, Fundamentals of Heat and Mass
 * Transfer, 7th ed., ch. 9 (from memory; eqs. 9.26, 9.30, 9.31 seen quoted at second hand). Correlations of this
 * kind are within 10 to 20 % of measurements; that is the accuracy of every temperature built on them.
 */
export interface StillAir {
  /** W/(m K) at the film temperature. */
  conductivity: number;
  /** Ra / L^3, 1/m3. */
  rayleighPerCube: number;
  /** 0.387 / [1 + (0.492 / Pr)^(9/16)]^(8/27). */
  vertical: number;
}

/**
 * Air between a surface and its surroundings, both in K and between 100 and 2000: properties at the film temperature
 * (their mean), read from a table made when the module loads; the difference counts by its size alone.
 * Accuracy: 1e-4 relative to airProperties.
 */
export function stillAir(surface: number, surroundings: number, out: StillAir): void {
  const film = (surface + surroundings) / 2;
  let u = (film - FIRST) / STEP;
  if (u < 0) u = 0;
  else if (u > CELLS) u = CELLS;
  const cell = Math.min(u | 0, CELLS - 1);
  const s = u - cell;
  const i = 3 * cell;
  out.conductivity = TABLE[i]! + s * (TABLE[i + 3]! - TABLE[i]!);
  // the steep property is stored to the power -1/4, which is nearly straight in T
  const thin = TABLE[i + 1]! + s * (TABLE[i + 4]! - TABLE[i + 1]!);
  out.rayleighPerCube = Math.abs(surface - surroundings) / (thin * thin * thin * thin);
  out.vertical = TABLE[i + 2]! + s * (TABLE[i + 5]! - TABLE[i + 2]!);
}

/**
 * Vertical plate of height L, m: Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}^2 for all Ra
 * (S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323-1329, doi:10.1016/0017-9310(75)90243-4;
 * Incropera eq. 9.26). Also the side of a vertical cylinder that is thick against its boundary layer, D/L >= 35 Gr^(-1/4).
 */
export function verticalCoefficient(air: StillAir, height: number): number {
  const rayleigh = air.rayleighPerCube * height * height * height;
  const root = 0.825 + air.vertical * Math.sqrt(Math.cbrt(rayleigh));
  return (air.conductivity / height) * root * root;
}

/**
 * Horizontal face, hot and up or cold and down, of length L = area / perimeter, m: Nu = 0.54 Ra^(1/4) or
 * 0.15 Ra^(1/3), whichever is larger (Incropera eqs. 9.30, 9.31, McAdams, for 1e4-1e7 and 1e7-1e11: they disagree by
 * 6 % at 1e7 and cross at 4.7e6, where we change over so that nothing jumps). Below Ra = 1e4 an extrapolation that
 * errs to the hot side.
 */
export function freeFaceCoefficient(air: StillAir, length: number): number {
  const rayleigh = air.rayleighPerCube * length * length * length;
  const nusselt = rayleigh < CROSSING ? 0.54 * Math.sqrt(Math.sqrt(rayleigh)) : 0.15 * Math.cbrt(rayleigh);
  return (air.conductivity / length) * nusselt;
}

/**
 * Horizontal face, hot and down or cold and up, of length L = area / perimeter, m: Nu = 0.52 Ra^(1/5) for 1e4-1e9
 * (Incropera eq. 9.32, 7th ed., from memory; E. Radziemska and W. M. Lewandowski, Applied Energy 68 (2001) 347-366).
 */
export function trappedFaceCoefficient(air: StillAir, length: number): number {
  const rayleigh = air.rayleighPerCube * length * length * length;
  // half the time of the engine's power; nothing where there is no difference, e^{-Infinity}
  return (air.conductivity / length) * 0.52 * Math.exp(0.2 * Math.log(rayleigh));
}

/** (0.54 / 0.15)^12: where the two laws of the free face meet. */
const CROSSING = 3.6 ** 12;

const FIRST = 100;
const STEP = 10;
const CELLS = 190;
const TABLE = makeTable();

/** Per temperature: conductivity, (g buoyancy)^(-1/4), the Prandtl factor. */
function makeTable(): Float64Array {
  const table = new Float64Array(3 * (CELLS + 1));
  const air: Air = { conductivity: 0, buoyancy: 0, prandtl: 0 };
  for (let i = 0; i <= CELLS; i++) {
    airProperties(FIRST + i * STEP, air);
    table[3 * i] = air.conductivity;
    table[3 * i + 1] = (GRAVITY * air.buoyancy) ** -0.25;
    table[3 * i + 2] = 0.387 / (1 + (0.492 / air.prandtl) ** (9 / 16)) ** (8 / 27);
  }
  return table;
}
