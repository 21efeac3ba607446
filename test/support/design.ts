import { FUSE_SIDES, INPUTS, inputByPath } from '../../src/model/inputs.ts';
import { QUANTITIES, type QuantityName } from '../../src/model/quantities.ts';
import { REASONS, STATUSES } from '../../src/model/status.ts';
import { createLaws } from '../../src/rig/laws.ts';

/** Inputs of one design by path, SI; everything else absent. */
export type Design = Readonly<Record<string, number>>;

/** The foyer table of the demo studies: 440 turns of 2 mm aluminium wire over 12 mm of aluminium, 50 Hz. */
export const FOYER: Design = {
  floats: 0,
  'coil.metal.resistivity': 2.8264e-8,
  'coil.metal.temperature_coefficient': 0.00403,
  'coil.metal.density': 2703,
  'coil.metal.specific_heat': 897,
  'coil.metal.relative_permeability': 1,
  'coil.wire': 2e-3,
  'coil.strands': 1,
  'coil.insulation.thickness': 0.056e-3,
  'coil.turns': 440,
  'coil.layers': 8,
  'coil.inner_radius': 0.05,
  'coil.extra_mass': 0.15,
  'coil.at_temperature': 295.15,
  'plate.layers.0.metal.resistivity': 2.82e-8,
  'plate.layers.0.metal.temperature_coefficient': 0.00403,
  'plate.layers.0.metal.density': 2710,
  'plate.layers.0.metal.specific_heat': 897,
  'plate.layers.0.metal.relative_permeability': 1,
  'plate.layers.0.thickness': 12e-3,
  'plate.at_temperature': 295.15,
  standoff: 2e-3,
  'supply.frequency': 50,
  'surroundings.temperature': 295.15,
  'drive.current': 12,
};

/** What else a study may say of it: insulation, plate, a 16 A socket with a fuse on the line's side, visitors. */
export const SOCKET: Design = {
  'coil.thermal_class': 403.15,
  'plate.radius': 0.35,
  'plate.extra_mass': 0,
  'supply.line_voltage': 230,
  'supply.max_voltage': 230,
  'supply.max_current': 16,
  'supply.fuse.rating': 16,
  'supply.fuse.kind': 0,
  'supply.fuse.side': FUSE_SIDES.line,
  'supply.series_resistance': 0.1,
  'surroundings.visitor_distance': 0.6,
};

export function slotsOf(design: Design): Float64Array {
  const slots = new Float64Array(INPUTS.length).fill(Number.NaN);
  for (const [path, value] of Object.entries(design)) {
    const input = inputByPath(path);
    if (!input) throw new Error(`no input ${path}`);
    slots[input.slot] = value;
  }
  return slots;
}

/** Every quantity of one design in SI, by name, with its status and reason; of those on request the ones given. */
export function evaluateRig(
  design: Design,
  requested: readonly number[] = [],
): Record<QuantityName, number> & { status: string; reason: string } {
  const layers = Object.keys(design).filter((path) => /^plate\.layers\.\d\.thickness$/.test(path)).length;
  const windings = Object.keys(design).filter((path) => /^coil\.windings\.\d\.turns$/.test(path)).length;
  const laws = createLaws(layers, windings, requested);
  laws.evaluate(slotsOf(design));
  const results = Object.fromEntries(QUANTITIES.map(({ name, index }) => [name, laws.results[index]!]));
  return {
    ...(results as Record<QuantityName, number>),
    status: STATUSES[laws.status]!,
    reason: REASONS[laws.reason]!.key,
  };
}
