import { GRAVITY } from '../kernel/constants.ts';
import {
  discHeatCapacity,
  idealHeatingTime,
  PLATE_EMISSIVITY,
  type PlateBody,
  PlateHeat,
  SIXTY_CELSIUS,
  WATER_SPECIFIC_HEAT,
} from '../kernel/plate-heat.ts';
import { FLOATS, LAYER_SLOTS, MAX_LAYERS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';

/**
 * Emissivity of the plate: bare aluminium sheet, the usual plate. Oxidised, painted or steel plates radiate more and
 * stay cooler than computed.
 */
const EMISSIVITY = PLATE_EMISSIVITY.aluminium;

const body: PlateBody = {
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
const heat = new PlateHeat();
const metals = Array.from({ length: MAX_LAYERS }, () => ({ density: 0, specificHeat: 0, thickness: 0 }));

/**
 * The plate as a warm body, where its radius and thickness are known; the load of a heating rig; how hard a clamped
 * plate is pushed (plateMass: with its extra mass, kg). Returns the plate's steady temperature as the coil sees it, under
 * a load the load's last at most, or plate.at_temperature where that is all that is known.
 */
export function computePlateHeat(rig: RigState, plateMass: number): number {
  const { slots, results, layerCount } = rig;
  const loss = results[Q.plate_loss]!;
  const radius = slots[SLOT.plateRadius]!;
  let thickness = 0;
  for (let j = 0; j < layerCount; j++) {
    const at = SLOT.plateLayers + j * LAYER_SLOTS;
    const metal = metals[j]!;
    metal.density = slots[at + METAL_SLOTS.density]!;
    metal.specificHeat = slots[at + METAL_SLOTS.specificHeat]!;
    metal.thickness = rig.layers[j]!.thickness;
    thickness += metal.thickness;
  }
  results[Q.heating_efficiency] = loss / results[Q.power]!;
  const water = slots[SLOT.loadWater]!;
  const from = slots[SLOT.loadFrom]!;
  const to = slots[SLOT.loadTo]!;
  const bounded = !Number.isNaN(radius) && thickness !== Number.POSITIVE_INFINITY;
  if (!bounded) {
    if (!Number.isNaN(water)) {
      results[Q.load_heating_time] = idealHeatingTime(water * WATER_SPECIFIC_HEAT, from, to, loss);
    }
    return slots[SLOT.plateTemperature]!;
  }

  const hole = slots[SLOT.plateInnerRadius]!;
  body.radius = radius;
  body.innerRadius = Number.isNaN(hole) ? 0 : hole;
  body.thickness = thickness;
  // a coil that floats lies over its plate; a floating plate or a pan lies over its coil
  body.coilFaceUp = rig.floating === FLOATS.coil;
  body.surroundings = slots[SLOT.surroundings]!;
  body.heatCapacity = discHeatCapacity(metals, layerCount, radius, body.innerRadius);
  body.loss = loss;
  heat.prepare(body);
  const steady = heat.steadyTemperature();
  results[Q.plate_temperature] = steady;
  results[Q.plate_time_to_60degC] = heat.timeTo(SIXTY_CELSIUS, steady);
  if (!Number.isNaN(water)) {
    results[Q.load_heating_time] = heat.loadHeatingTime(water * WATER_SPECIFIC_HEAT, from, to, steady);
  }
  if (!rig.floats) computePan(rig, plateMass + (Number.isNaN(water) ? 0 : water));
  // a load holds the plate near its own temperature
  const hottest = Number.isNaN(water) ? steady : Math.min(steady, to);
  return Number.isNaN(hottest) ? slots[SLOT.plateTemperature]! : hottest;
}

/** Average and peak force on a clamped plate over the weight of plate, extra mass and load. */
function computePan(rig: RigState, mass: number): void {
  const { results } = rig;
  const average = results[Q.lift_force]!;
  results[Q.pan_lift_over_weight] = average / (mass * GRAVITY);
  results[Q.pan_peak_lift_over_weight] = (average + results[Q.double_frequency_force]!) / (mass * GRAVITY);
}
