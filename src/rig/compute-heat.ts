import { HOTTEST_PLATE, SIXTY_CELSIUS } from '../kernel/plate-heat.ts';
import { holdsResistivity, resistivityAt } from '../kernel/resistivity.ts';
import { WarmUp, type WarmUpGoal, type WarmUpTimes } from '../kernel/warm-up.ts';
import { MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { type HeatBodies, heatBodies } from './heat-bodies.ts';
import type { RigState } from './state.ts';
import type { WindingResistance } from './winding-resistance.ts';

/** A coil counts as cooled down when it is this little above the surroundings, K. */
const COOL = 10;

/** Within this of a temperature it is reached, K: steady states are known so well. */
const REACHED = 1e-5;

/** Where tables end for a winding that never settles, K, and how far its plate is followed. */
const HOT = 700;
const RISE = 60;

/** Working storage of `computeHeat`; one set an evaluator. */
export interface HeatWork {
  readonly bodies: HeatBodies;
  readonly goal: WarmUpGoal;
  readonly warmUp: WarmUp;
  /** Temperatures, K: of the windings and, behind the last of them, of the plate. */
  readonly y: Float64Array;
  readonly start: Float64Array;
  readonly times: WarmUpTimes;
}

export function createHeatWork(): HeatWork {
  const bodies = heatBodies();
  return {
    bodies,
    goal: {
      limit: 0,
      plateTo: 0,
      reachesLimit: false,
      reachesPlate: false,
      hottestMean: 0,
      hottestPlate: 0,
    },
    warmUp: new WarmUp(bodies.heat),
    y: new Float64Array(MAX_WINDINGS + 1),
    start: new Float64Array(MAX_WINDINGS + 1),
    times: { limit: 0, plate: 0, means: new Float64Array(MAX_WINDINGS) },
  };
}

/**
 * Windings and plate as warm bodies with the operating current held: steady temperatures, permitted on-time, the time that a
 * load takes, cool-down, and the resistance that a meter reads on the hot winding.
 */
export function computeHeat(rig: RigState, resistance: WindingResistance, work: HeatWork): void {
  const { slots, results } = rig;
  const { bodies, goal, warmUp, y, start, times } = work;
  const { heat } = bodies;
  const { count } = rig.coil;
  const surroundings = slots[SLOT.surroundings]!;
  results[Q.heating_efficiency] = results[Q.plate_loss]! / results[Q.power]!;
  bodies.fill(rig, resistance, results[Q.plate_loss]!);
  const bounded = !heat.plateHeld;
  const isLoaded = bounded && !Number.isNaN(slots[SLOT.loadWater]!);
  const limit = slots[SLOT.thermalClass]!;
  const to = slots[SLOT.loadTo]!;

  y[count] = slots[SLOT.plateTemperature]!;
  let settles = heat.steady(y);
  if (bounded) computePlate(rig, settles, work);
  if (isLoaded) {
    bodies.load(rig);
    settles = heat.steady(y);
  }
  let hottest = Number.NEGATIVE_INFINITY;
  // a winding that neither settles nor reaches the limit has none
  for (let w = 0; w < count; w++) times.means[w] = Number.NaN;
  if (settles) {
    let mean = Number.NEGATIVE_INFINITY;
    let surface = Number.NEGATIVE_INFINITY;
    for (let w = 0; w < count; w++) {
      mean = Math.max(mean, y[w]!);
      surface = Math.max(surface, heat.windings[w]!.far);
      hottest = Math.max(hottest, heat.windings[w]!.hottest);
      times.means[w] = y[w]!;
    }
    results[Q.coil_temperature] = mean;
    results[Q.coil_surface] = surface;
    results[Q.coil_hot_spot] = hottest;
  }
  // looks at the windings elsewhere: after what they are when steady
  if (isLoaded) results[Q.load_power_needed] = neededPower(to, bodies);
  const isTimed = !Number.isNaN(limit);
  const reachesLimit = isTimed && !(settles && hottest <= limit);
  const reachesLoad = isLoaded && (!settles || y[count]! >= to - REACHED);
  for (let w = 0; w < count; w++) start[w] = surroundings;
  start[count] = isLoaded ? slots[SLOT.loadFrom]! : bounded ? surroundings : slots[SLOT.plateTemperature]!;
  let most = reachesLimit ? limit : surroundings;
  if (reachesLoad) for (let w = 0; w < count; w++) most = Math.max(most, settles ? y[w]! : HOT);
  const plateMost = settles ? y[count]! : isLoaded ? to : start[count]! + RISE;
  goal.limit = limit;
  goal.plateTo = to;
  goal.reachesLimit = reachesLimit;
  goal.reachesPlate = reachesLoad;
  goal.hottestMean = most;
  goal.hottestPlate = plateMost;
  warmUp.times(start, goal, times);
  if (isTimed) results[Q.coil_on_time] = times.limit;
  if (isLoaded) results[Q.load_heating_time] = times.plate;
  if (settles || isTimed) computeCooling(rig, resistance, work);
}

/** Of the plate alone; where the winding never settles, without its heat. */
function computePlate(rig: RigState, settles: boolean, { bodies, y }: HeatWork): void {
  const { results } = rig;
  const { plate } = bodies.heat;
  const steady = settles ? y[rig.coil.count]! : plate.steadyTemperature();
  results[Q.plate_temperature] = steady < HOTTEST_PLATE ? steady : Number.NaN;
  // without the winding's heat it is cooler than with it
  const never = settles && steady < SIXTY_CELSIUS;
  results[Q.plate_time_to_60degC] = never ? Number.POSITIVE_INFINITY : plate.timeTo(SIXTY_CELSIUS);
}

/** Loss in the plate that would just bring its load to a temperature, K, the windings as they then are, W. */
function neededPower(to: number, bodies: HeatBodies): number {
  const { plate, windings } = bodies.heat;
  let given = 0;
  for (let w = 0; w < bodies.count; w++) {
    const winding = windings[w]!;
    const steady = winding.steadyTemperature(to);
    if (!Number.isNaN(steady)) given += winding.toPlate;
  }
  return Math.max(0, plate.shed(to) - given);
}

/** From the end of the on-time, or the steady state where that comes first: cool-down and the meter's reading. */
function computeCooling(rig: RigState, resistance: WindingResistance, { bodies, times }: HeatWork): void {
  const { slots, results, coil } = rig;
  const surroundings = slots[SLOT.surroundings]!;
  let coolTime = 0;
  let hot = 0;
  for (let w = 0; w < coil.count; w++) {
    const mean = times.means[w]!;
    coolTime = Math.max(coolTime, bodies.heat.windings[w]!.coolDownTime(mean, surroundings + COOL));
    const { temperatureCoefficient } = coil.windings[w]!;
    // empty where the linear law of resistivity gives out (a large negative coefficient)
    hot += holdsResistivity(temperatureCoefficient, mean)
      ? resistivityAt(resistance.dc20[w]!, temperatureCoefficient, mean)
      : Number.NaN;
  }
  if (Number.isNaN(hot)) return;
  results[Q.coil_cool_time] = coolTime;
  results[Q.resistance_hot] = hot;
}
