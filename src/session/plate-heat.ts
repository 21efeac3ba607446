import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createPlateHeatProfiles } from '../rig/plate-heat-profile.ts';
import type { PlateHeatRows } from '../store/write-plate-heat.ts';

/** Of a long front the best in the first objective: each finite disc costs milliseconds and 48 lines. */
const MOST_DESIGNS = 100;

/** Where the heat falls in the plates of a front's designs, best in the first objective first. */
export function* plateHeatOf(study: Study, front: TableRows): Generator<PlateHeatRows> {
  const profileOf = createPlateHeatProfiles(study);
  const width = study.vary.length;
  for (let i = 0; i < Math.min(front.count, MOST_DESIGNS); i++) {
    const profile = profileOf(front.values.subarray(i * width, (i + 1) * width));
    if (profile) yield { design: front.designs[i]!, ...profile };
  }
}
