import {
  createStillAir,
  freeFaceCoefficient,
  type StillAir,
  stillAir,
  verticalCoefficient,
} from './convection.ts';
import { radiantFlux } from './radiation.ts';

/** Specific heat of water, mean of 20 to 90 degC, J/(kg K): (376.9 - 83.9) kJ/kg over 70 K (steam tables, from memory). */
export const WATER_SPECIFIC_HEAT = 4186;

/** What covers a vessel of water. */
export const COVER = Object.freeze({ lid: 0, open: 1 });

/** A vessel of water on the plate: as wide as the plate, the water at the plate's temperature throughout. */
export interface Vessel {
  /** m. */
  radius: number;
  /** Of the water, J/K. */
  capacity: number;
  /** Height of the wall, m. */
  wall: number;
  /** Of COVER. */
  cover: number;
}

/** A lid of glass or enamel, water itself: 0.85 to 0.96; a metal wall in use, neither bright nor black (from memory). */
const TOP_EMISSIVITY = 0.9;
const WALL_EMISSIVITY = 0.3;

/** A vessel stands this many times higher than its water, within the limits of usual pans, m (a judgement). */
const OVER_WATER = 2;
const LOWEST_WALL = 0.04;

/** Relative humidity of the room (a judgement; a dry room makes 3 % more at 60 degC). */
const HUMIDITY = 0.5;

/** Of water vapour, J/(kg K), and Lewis number of it in air to the power 2/3: 0.85 (Incropera, table A.8, from memory). */
const VAPOUR_GAS = 461.5;
const LEWIS = 0.9;

/** Air near 330 K, J/(m3 K): density times specific heat. */
const AIR_CAPACITY = 1.07 * 1008;

const WATER_DENSITY = 980;

export function wallHeight(waterMass: number, radius: number): number {
  return Math.max(LOWEST_WALL, (OVER_WATER * waterMass) / (WATER_DENSITY * Math.PI * radius * radius));
}

/**
 * Saturation pressure of water, Pa, at T K: Magnus form of O. A. Alduchov and R. E. Eskridge, J. Appl. Meteor. 35 (1996)
 * 601: 610.94 exp(17.625 t / (t + 243.04)), t in degC (from memory). Within 0.4 % to 50 degC, 3 % at 100 degC.
 */
function saturationPressure(temperature: number): number {
  const t = temperature - 273.15;
  return 610.94 * Math.exp((17.625 * t) / (t + 243.04));
}

/** Heat of evaporation, J/kg: 2.501e6 - 2361 t (linear; steam tables within 1 % to 100 degC, from memory). */
function evaporationHeat(temperature: number): number {
  return 2.501e6 - 2361 * (temperature - 273.15);
}

/**
 * Evaporation from the open surface, W/m2: mass transfer by analogy to heat transfer,
 *   m = h / (rho cp Le^(2/3)) (rho_v(T) - phi rho_v(room))
 * (T. H. Chilton and A. P. Colburn, Ind. Eng. Chem. 26 (1934) 1183), h of the free horizontal face. Still air.
 * Accuracy: 20 %; above 90 degC the vapour itself moves the air and the true figure is higher.
 */
function evaporation(coefficient: number, temperature: number, room: number): number {
  const vapour = saturationPressure(temperature) / (VAPOUR_GAS * temperature);
  const outside = (HUMIDITY * saturationPressure(room)) / (VAPOUR_GAS * room);
  const flux = (coefficient / (AIR_CAPACITY * LEWIS)) * (vapour - outside);
  return flux * evaporationHeat(temperature);
}

/**
 * Heat that a vessel loses through wall and cover, W: convection and radiation from wall and lid, both at the
 * water's temperature (vapour condenses under the lid; a metal wall conducts), or from wall and open water, which
 * also evaporates. Negative below the room's temperature, but for what evaporates.
 * @param air working storage
 */
export function vesselLoss(
  { radius, wall, cover }: Vessel,
  temperature: number,
  room: number,
  air: StillAir = createStillAir(),
): number {
  const excess = temperature - room;
  stillAir(temperature, room, air);
  const top = Math.PI * radius * radius;
  const side = 2 * Math.PI * radius * wall;
  const free = freeFaceCoefficient(air, radius / 2);
  const still =
    (free * top + verticalCoefficient(air, wall) * side) * excess +
    radiantFlux(temperature, room, TOP_EMISSIVITY * top + WALL_EMISSIVITY * side);
  return cover === COVER.open ? still + top * evaporation(free, temperature, room) : still;
}
