import type { Problem } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { emptyExpressions } from '../rig/empty-expressions.ts';
import type { ReadStudy } from '../study/read-study.ts';

/** What a quantity needs of the study, where it may be left out; by name. */
const NEEDS: Readonly<Record<string, string>> = {
  fuse_margin: 'supply.fuse (and supply.line_voltage for one on the line)',
  fuse_holds: 'supply.fuse (and supply.line_voltage for one on the line)',
  fuse_blows: 'supply.fuse (and supply.line_voltage for one on the line)',
  line_current: 'supply.line_voltage',
  voltage_to_earth: 'supply.line_voltage, or supply.isolated: true',
  insulation_margin: 'supply.line_voltage and a grade of enamel or standoff.breakdown',
  supply_loading: 'supply.max_voltage, supply.max_current or supply.fuse',
  capacitor_voltage: 'supply.series_capacitance',
  coil_on_time: 'coil.thermal_class',
  plate_temperature: 'plate.radius',
  plate_time_to_60degC: 'plate.radius',
  load_heating_time: 'plate.load',
  load_power_needed: 'plate.load',
  coil_peak: 'duty, such as {on: 5 min, off: 25 min}',
  plate_peak: 'duty and plate.radius',
  height_least: 'duty, such as {on: 5 min, off: 25 min}',
  switch_on_trips: 'supply.fuse of kind B, C or D',
  plate_flux_density: 'a magnetic layer in the plate',
  field_visitor: 'surroundings.visitor_distance',
  field_on_axis: 'surroundings.visitor_distance',
};

/** A limit or objective that is empty in every probed design is a mistake of the study: no design could win by it. */
export function emptyExpressionProblems(study: Study, { locateExpression }: ReadStudy): Problem[] {
  return emptyExpressions(study).map(({ kind, index, quantity }) => {
    const what = kind === 'limits' ? 'a limit' : 'an objective';
    const needs = quantity === null ? undefined : NEEDS[quantity];
    return {
      code: 'always-empty',
      found:
        quantity === null
          ? `${what} without a value in every design probed`
          : `\`${quantity}\`, which is empty in every design probed`,
      wanted:
        needs === undefined
          ? `${what} that designs of this study have a value for`
          : `what it depends on: ${needs}`,
      ...locateExpression(kind, index, quantity),
    };
  });
}
