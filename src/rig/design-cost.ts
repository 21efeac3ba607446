import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import { type DiscResolution, resolveRig } from '../kernel/disc/disc-resolution.ts';
import { LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { DesignBatch } from '../model/rows.ts';
import { REASON } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { createDesignReader } from './design.ts';
import { createGeometry } from './geometry.ts';
import { TRIES } from './tries.ts';

/** A design over a wide plate, s; none takes less. */
export const WIDE = 50e-6;
/** What a disc costs beside what is counted below, s. */
const DISC = 1e-3;
/** For each pair of radial profiles and each axial one, s; and where there is a hole, by how fine its rim is. */
const PAIR = 5e-6;
const PIERCED_PAIR = 3e-5;

/**
 * Seconds that the designs of a task take, as far as their inputs show: the most expensive one of a sample. A function of
 * the inputs alone, so that it may decide where work is cut; a clock may not. Fitted to sixty random discs on one
 * machine, most of which it meets within a factor of three.
 */
export function guessCost(task: Task, sample: DesignBatch): number {
  const { plateLayers, windings } = task.rig;
  const reader = createDesignReader(task);
  const geometry = createGeometry(plateLayers, windings);
  const width = task.vary.length;
  let most = WIDE;
  for (let i = 0; i < sample.count; i++) {
    reader.read(sample.values, i * width);
    if (geometry.fill(reader.slots) !== REASON.none || !geometry.edge) continue;
    const sections = geometry.coil.windings.slice(0, geometry.coil.count).map(({ section }) => section);
    most = Math.max(most, discCost(reader.slots, plateLayers, sections));
  }
  const effort = Math.max(0, ...(task.requested ?? []).map((index) => QUANTITIES[index]!.effort));
  const cost = most + effort * WIDE;
  return task.tolerance ? cost * (1 + TRIES) : cost;
}

function discCost(slots: Float64Array, plateLayers: number, windings: readonly CoilWinding[]): number {
  const layers = Array.from({ length: plateLayers }, (_, layer) => {
    const at = SLOT.plateLayers + layer * LAYER_SLOTS;
    return {
      thickness: slots[at + LAYER_THICKNESS]!,
      resistivity: slots[at + METAL_SLOTS.resistivity]!,
    };
  });
  const hole = slots[SLOT.plateInnerRadius]!;
  const innerRadius = Number.isNaN(hole) ? 0 : hole;
  const angularFrequency = 2 * Math.PI * slots[SLOT.frequency]!;
  const spec = { radius: slots[SLOT.plateRadius]!, innerRadius, layers, angularFrequency };
  const resolution = resolveRig(spec, windings, slots[SLOT.standoff]!);
  return resolution.adequate ? resolvedCost(resolution, innerRadius > 0) : WIDE;
}

function resolvedCost({ smooth, scales, axial }: DiscResolution, pierced: boolean): number {
  const radial = smooth + (pierced ? 2 : 1) * scales.length;
  const depth = axial.reduce((sum, count) => sum + count, 0);
  const rim = pierced ? PIERCED_PAIR * 2 ** scales.length : 0;
  return DISC + radial * radial * (PAIR * depth + rim);
}
