import { HOTTEST, WINDING_EMISSIVITY, type WindingBody, WindingHeat } from '../kernel/coil-heat.ts';
import { PLATE_EMISSIVITY } from '../kernel/plate-heat.ts';
import { holdsResistivity, resistivityAt } from '../kernel/resistivity.ts';
import { INSULATION_DENSITY } from '../kernel/winding.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';
import type { WindingResistance } from './winding-resistance.ts';

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
 * the resistance that a meter reads on it hot. Of several windings each warms alone; the hottest speaks for all.
 */
export function computeCoilHeat(
  rig: RigState,
  resistance: WindingResistance,
  plateTemperature: number,
): void {
  const { slots, results, coil } = rig;
  const surroundings = slots[SLOT.surroundings]!;
  const limit = slots[SLOT.thermalClass]!;
  let steadiest = Number.NEGATIVE_INFINITY;
  let onTime = Number.POSITIVE_INFINITY;
  let coolTime = 0;
  let hot = 0;
  let runsAway = false;
  for (let w = 0; w < coil.count; w++) {
    const wound = coil.windings[w]!;
    fillBody(rig, resistance, w, plateTemperature);
    heat.prepare(body);
    const steady = heat.steadyTemperature(HOTTEST);
    if (Number.isNaN(steady)) runsAway = true;
    steadiest = Math.max(steadiest, steady);
    onTime = Math.min(onTime, heat.onTime(limit, steady, HOTTEST));
    const hottest = Number.isNaN(limit) ? steady : Number.isNaN(steady) ? limit : Math.min(steady, limit);
    coolTime = Math.max(coolTime, heat.coolDownTime(hottest, surroundings + COOL));
    const { temperatureCoefficient: slope } = wound;
    // empty where the linear law of resistivity gives out (a large negative coefficient)
    hot += holdsResistivity(slope, hottest) ? resistivityAt(resistance.dc20[w]!, slope, hottest) : Number.NaN;
  }
  if (!runsAway) results[Q.coil_temperature] = steadiest;
  if (!Number.isNaN(limit)) results[Q.coil_on_time] = onTime;
  if (Number.isNaN(hot)) return;
  results[Q.coil_cool_time] = coolTime;
  results[Q.resistance_hot] = hot;
}

function fillBody(rig: RigState, resistance: WindingResistance, w: number, plateTemperature: number): void {
  const { winding, section, input, specificHeat, temperatureCoefficient } = rig.coil.windings[w]!;
  const square = rig.current * rig.current;
  body.innerRadius = section.innerRadius;
  body.outerRadius = section.outerRadius;
  body.height = section.height;
  // a coil that floats lies over its plate; one under a floating plate or a pan looks down with its far face
  body.farFaceUp = rig.floating === FLOATS.coil;
  body.gap = rig.gap + section.offset;
  body.plateTemperature = plateTemperature;
  body.surroundings = rig.slots[SLOT.surroundings]!;
  const conductor = winding.length * winding.conductorArea * input.density;
  const enamel = winding.length * (winding.coveredArea - winding.conductorArea) * INSULATION_DENSITY;
  body.heatCapacity = conductor * specificHeat + enamel * INSULATION_SPECIFIC_HEAT;
  const dc20 = resistance.dc20[w]!;
  const dc = resistance.dc[w]!;
  body.dcLoss = square * dc20;
  // what skin and proximity effect add, at 20 degC: they fall as the metal's resistivity rises
  body.acLoss = (square * (resistance.ac[w]! - dc) * dc) / dc20;
  body.temperatureCoefficient = temperatureCoefficient;
}
