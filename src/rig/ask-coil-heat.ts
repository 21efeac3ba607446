import { HOTTEST, WINDING_EMISSIVITY, type WindingBody, WindingHeat } from '../kernel/coil-heat.ts';
import { REFERENCE_TEMPERATURE } from '../kernel/constants.ts';
import { PLATE_EMISSIVITY } from '../kernel/plate-heat.ts';
import { INSULATION_DENSITY } from '../kernel/winding.ts';
import { METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';

/** Specific heat of enamels and similar plastics, J/(kg K) (common practice, no source). */
const INSULATION_SPECIFIC_HEAT = 1400;

/** A coil counts as cooled down when it is this little above the surroundings, K. */
const COOL = 10;

const body: WindingBody = {
  innerRadius: 0,
  outerRadius: 0,
  height: 0,
  farFaceUp: true,
  gap: 0,
  emissivity: WINDING_EMISSIVITY,
  plateEmissivity: PLATE_EMISSIVITY.aluminium,
  plateTemperature: 0,
  surroundings: 0,
  heatCapacity: 0,
  dcLoss: 0,
  acLoss: 0,
  temperatureCoefficient: 0,
};
const heat = new WindingHeat();

/**
 * The winding as a warm body with the operating current held: steady temperature, permitted on-time, cool-down, and
 * the resistance that a meter reads on it hot.
 * @param dc dc resistance at coil.at_temperature, ohm
 */
export function askCoilHeat(rig: RigState, dc: number, plateTemperature: number): void {
  const { slots, results, section, winding } = rig;
  const surroundings = slots[SLOT.surroundings]!;
  const coefficient = slots[SLOT.coilMetal + METAL_SLOTS.temperatureCoefficient]!;
  const square = rig.current * rig.current;
  body.innerRadius = section.innerRadius;
  body.outerRadius = section.outerRadius;
  body.height = section.height;
  body.farFaceUp = rig.floats;
  body.gap = rig.gap;
  body.plateTemperature = plateTemperature;
  body.surroundings = surroundings;
  const conductor = winding.length * winding.conductorArea * slots[SLOT.coilMetal + METAL_SLOTS.density]!;
  const enamel = winding.length * (winding.coveredArea - winding.conductorArea) * INSULATION_DENSITY;
  body.heatCapacity =
    conductor * slots[SLOT.coilMetal + METAL_SLOTS.specificHeat]! + enamel * INSULATION_SPECIFIC_HEAT;
  body.dcLoss = square * rig.resistance20;
  // what skin and proximity effect add, at 20 degC: they fall as the metal's resistivity rises
  body.acLoss = (square * (rig.resistance - dc) * dc) / rig.resistance20;
  body.temperatureCoefficient = coefficient;
  heat.prepare(body);

  const steady = heat.steadyTemperature(HOTTEST);
  results[Q.coil_temperature] = steady;
  const limit = slots[SLOT.thermalClass]!;
  const runsAway = Number.isNaN(steady);
  let hottest = steady;
  if (!Number.isNaN(limit)) {
    results[Q.coil_on_time] = heat.onTime(limit, steady, HOTTEST);
    hottest = runsAway ? limit : Math.min(steady, limit);
  }
  if (Number.isNaN(hottest)) return;
  results[Q.coil_cool_time] = heat.coolDownTime(hottest, surroundings + COOL);
  results[Q.resistance_hot] = rig.resistance20 * (1 + coefficient * (hottest - REFERENCE_TEMPERATURE));
}
