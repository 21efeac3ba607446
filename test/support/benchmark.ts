import { FLOATS } from '../../src/model/inputs.ts';
import type { Design } from './design.ts';

const plate = 'plate.layers.0';

/** TEAM Workshop Problem 28 (Karl, Fetzer, Kurz, Lehner, Rucker): an aluminium disc over two opposed coils. */
export const BENCHMARK: Design = {
  floats: FLOATS.plate,
  'coil.metal.resistivity': 1.7241e-8,
  'coil.metal.temperature_coefficient': 0.00393,
  'coil.metal.density': 8890,
  'coil.metal.specific_heat': 385,
  'coil.metal.relative_permeability': 1,
  'coil.wire': 1e-3,
  'coil.strands': 1,
  'coil.insulation.thickness': 0.03e-3,
  'coil.extra_mass': 0,
  'coil.windings.0.turns': 960,
  'coil.windings.0.inner_radius': 0.027,
  'coil.windings.0.section.outer_radius': 0.055,
  'coil.windings.0.section.height': 0.052,
  'coil.windings.1.turns': 576,
  'coil.windings.1.inner_radius': 0.08,
  'coil.windings.1.section.outer_radius': 0.095,
  'coil.windings.1.section.height': 0.052,
  'coil.windings.1.sense': -1,
  'coil.at_temperature': 293.15,
  [`${plate}.metal.resistivity`]: 1 / 3.4e7,
  [`${plate}.metal.temperature_coefficient`]: 0.00403,
  // the density that gives the published 0.107 kg
  [`${plate}.metal.density`]: 0.107 / (Math.PI * 0.065 ** 2 * 0.003),
  [`${plate}.metal.specific_heat`]: 897,
  [`${plate}.metal.relative_permeability`]: 1,
  [`${plate}.thickness`]: 0.003,
  'plate.radius': 0.065,
  'plate.extra_mass': 0,
  'plate.at_temperature': 293.15,
  standoff: 0.0038,
  'supply.frequency': 50,
  'supply.series_resistance': 0,
  'surroundings.temperature': 293.15,
  'drive.current': 20 / Math.SQRT2,
};
