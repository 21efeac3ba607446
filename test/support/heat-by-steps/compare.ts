import type { WindingBody } from '../../../src/kernel/coil-heat.ts';
import type { PlateBody } from '../../../src/kernel/plate-heat.ts';
import { SLOT } from '../../../src/model/inputs.ts';
import { Q } from '../../../src/model/quantities.ts';
import { type HeatBodies, heatBodies } from '../../../src/rig/heat-bodies.ts';
import { createLaws, type Laws } from '../../../src/rig/laws.ts';
import { type Design, slotsOf } from '../design.ts';
import { RigBySteps, type WarmRig } from './rig-by-steps.ts';

const kept = new Map<string, Laws>();

export function lawsOf(design: Design): Laws {
  const count = (pattern: RegExp) => Object.keys(design).filter((path) => pattern.test(path)).length;
  const layers = count(/^plate\.layers\.\d\.thickness$/);
  const windings = count(/^coil\.windings\.\d\.turns$/);
  const key = `${layers} ${windings}`;
  const laws = kept.get(key) ?? createLaws(layers, windings);
  kept.set(key, laws);
  return laws;
}

const bodies: HeatBodies = heatBodies();

/** The warm bodies of a design that `laws` has just evaluated; null where it has no operating point. */
export function warmRigOf(laws: Laws, slots: Float64Array): WarmRig | null {
  const point = laws.operatingPoint;
  if (point === null) return null;
  const { rig, resistance } = point;
  bodies.fill(rig, resistance, laws.results[Q.plate_loss]!);
  const { heat, count } = bodies;
  const bounded = !heat.plateHeld;
  const isLoaded = bounded && !Number.isNaN(slots[SLOT.loadWater]!);
  if (isLoaded) bodies.load(rig);
  const { plate } = heat;
  const body = (plate as unknown as { body: PlateBody }).body;
  const room = slots[SLOT.surroundings]!;
  return {
    windings: heat.windings
      .slice(0, count)
      .map((each): WindingBody => ({ ...each.body, filling: { ...each.body.filling } })),
    plate: bounded ? { ...body } : null,
    plateStart: isLoaded ? slots[SLOT.loadFrom]! : bounded ? room : slots[SLOT.plateTemperature]!,
    vessel: plate.vessel === null ? null : { ...plate.vessel },
    plateMost: isLoaded ? slots[SLOT.loadTo]! : Number.POSITIVE_INFINITY,
    room,
  };
}

/** A row's heat and what the second method finds. */
export function compareHeat(design: Design, tolerance: number, mostSteps?: number) {
  const laws = lawsOf(design);
  const slots = slotsOf(design);
  laws.evaluate(slots);
  const rig = warmRigOf(laws, slots);
  if (rig === null) return null;
  const { results } = laws;
  const row = {
    mean: results[Q.coil_temperature]!,
    surface: results[Q.coil_surface]!,
    hottest: results[Q.coil_hot_spot]!,
    plate: results[Q.plate_temperature]!,
    onTime: results[Q.coil_on_time]!,
    loadTime: results[Q.load_heating_time]!,
    coolTime: results[Q.coil_cool_time]!,
    hot: results[Q.resistance_hot]!,
  };
  const course = new RigBySteps(rig).course(slots[SLOT.thermalClass]!, tolerance, mostSteps);
  return { row, course, rig };
}
