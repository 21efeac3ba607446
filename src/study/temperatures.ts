import type { Problem } from '../errors.ts';
import { METAL_SLOTS, SLOT, WINDING_SLOTS } from '../model/inputs.ts';
import type { RigTemplate } from '../model/study.ts';
import type { ValuesOf } from './complete.ts';
import type { Span } from './positions.ts';
import { layerSlot } from './rig.ts';

/** The temperature, K, to which coefficients refer. */
const REFERENCE = 293.15;
/** As `rig/geometry` takes it: below this share of its value at 20 degC a linear law gives no resistivity. */
const LEAST_RATIO = 0.1;

/**
 * Temperatures that no design of a study can have: a metal whose resistivity would be all but gone or negative there, a
 * thermal class below the room. Where only some designs are so, they become rows with that reason.
 */
export function impossibleTemperatures(
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  values: ValuesOf,
  locate: (path: string) => Span,
): Problem[] {
  const problems: Problem[] = [];
  const room = endsOf(values(SLOT.surroundings));
  const lost = (metal: number, slot: number, path: string, of: string): void => {
    const coefficients = values(metal + METAL_SLOTS.temperatureCoefficient);
    const own = endsOf(values(slot));
    const temperatures = [...own, ...(values(slot).some(Number.isNaN) ? room : [])];
    // the greatest of all pairs is one of their ends
    const ratios = temperatures.flatMap((temperature) =>
      endsOf(coefficients).map((coefficient) => 1 + coefficient * (temperature - REFERENCE)),
    );
    const most = Math.max(...ratios);
    // also where something is not known
    if (ratios.length === 0 || coefficients.some(Number.isNaN) || !(most < LEAST_RATIO)) return;
    const given = own.length > 0;
    problems.push({
      code: 'no-resistivity',
      found: `${of} at a temperature where its metal would have ${most > 0 ? `${Number((100 * most).toPrecision(2))} %` : 'less than none'} of its resistivity at 20 degC`,
      wanted:
        'a temperature at which the temperature coefficient still holds: a tenth of the resistivity or more',
      ...locate(given ? path : 'surroundings.temperature'),
    });
  };
  const coilMetals = windings === 0 ? [SLOT.coilMetal] : [];
  for (let w = 0; w < windings; w++) {
    const slot = SLOT.windings + w * WINDING_SLOTS;
    coilMetals.push(values(slot).some(Number.isNaN) ? SLOT.coilMetal : slot);
  }
  for (const metal of new Set(coilMetals))
    lost(metal, SLOT.coilTemperature, 'coil.at_temperature', 'the coil');
  for (let i = 0; i < plateLayers; i++) {
    lost(
      layerSlot(i),
      SLOT.plateTemperature,
      'plate.at_temperature',
      i === 0 ? 'the plate' : `plate layer ${i}`,
    );
  }
  const classes = values(SLOT.thermalClass);
  const coldest = room[0];
  if (coldest !== undefined && classes.every((one) => one < coldest)) {
    problems.push({
      code: 'class-below-room',
      found: 'a thermal class below the temperature of the surroundings',
      wanted: "the class of the winding's insulation, such as 130 degC",
      ...locate('coil.thermal_class'),
    });
  }
  return problems;
}

/** The least and the greatest of the values that are known; none where none is. */
function endsOf(values: Float64Array): number[] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low > high ? [] : [low, high];
}
