import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { isEvaluated } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { PLATE_MODEL } from './coil-over-plate.ts';
import { createDesignReader } from './design.ts';
import { createLaws } from './laws.ts';
import { NO_OTHER_LAW } from './needed-laws.ts';

/** Where the heat falls in one design's plate: loss per area over the distance from the axis, SI. */
export interface PlateHeatProfile {
  readonly radii: Float64Array;
  /** W/m2, all layers together. */
  readonly density: Float64Array;
}

/** Distances from the axis: to the rim of a finite disc, to this many coil radii in a wide plate. */
const SAMPLES = 48;
const FARTHEST = 1.6;

/** Profiles of single designs, for the card, the report and plate_heat.csv; null where there was no operating point. */
export function createPlateHeatProfiles(task: Task): (values: Float64Array) => PlateHeatProfile | null {
  const reader = createDesignReader(task);
  const laws = createLaws(task.rig.plateLayers, task.rig.windings, [], NO_OTHER_LAW);
  return (values) => {
    reader.read(values, 0);
    laws.evaluateToHeat(reader.slots);
    const { coupling, results } = laws;
    const evaluated = isEvaluated(laws.status);
    if (coupling === null || !evaluated) return null;
    const radius = reader.slots[SLOT.plateRadius]!;
    const hole = reader.slots[SLOT.plateInnerRadius]!;
    const disc = results[Q.plate_model] === PLATE_MODEL.disc;
    const from = disc && !Number.isNaN(hole) ? hole : 0;
    const reach = FARTHEST * results[Q.coil_outer_radius]!;
    const to = disc ? radius : Number.isNaN(radius) ? reach : Math.min(radius, reach);
    const radii = Float64Array.from(
      { length: SAMPLES },
      (_, i) => from + ((to - from) * (i + 0.5)) / SAMPLES,
    );
    const density = new Float64Array(SAMPLES);
    const gap = results[Q.gap]!;
    const current = results[Q.current]!;
    laws.lossDensity(gap, current, radii, density);
    return { radii, density };
  };
}
