import { UNITS, type Unit } from './units.ts';

/**
 * The registry of quantities: everything that is computed for a design, in table order. Tables, CSVW metadata,
 * `eddylift quantities`, expressions and reports read it; the rig writes one number per entry and design.
 */
export interface Quantity {
  /** Name in expressions. */
  readonly name: string;
  /** Name in tables: `<name>_<unit>`. */
  readonly column: string;
  readonly index: number;
  readonly unit: Unit;
  readonly label: string;
  readonly meaning: string;
  readonly group: Group;
}

export type Group = 'winding' | 'circuit' | 'lift-off' | 'operating point' | 'mechanics' | 'heat' | 'plate';

type Row = readonly [name: string, unit: Unit, label: string, group: Group, meaning: string];

// biome-ignore format: a table reads better in rows
const ROWS = [
  ['wire_length', UNITS.m, 'wire length', 'winding', 'length of one wire in the winding: 2 pi x mean radius x turns'],
  ['coil_mass', UNITS.kg, 'coil mass', 'winding', 'conductor, insulation and extra mass'],
  ['coil_outer_radius', UNITS.mm, 'coil outer radius', 'winding', 'outer radius of the winding'],
  ['winding_height', UNITS.mm, 'winding height', 'winding', 'extent of the winding along the axis'],
  ['space_factor', UNITS.one, 'space factor', 'winding', 'bare conductor area over section area'],
  ['resistance_cold', UNITS.ohm, 'cold resistance', 'circuit', 'dc resistance at the temperature of the surroundings'],
  ['resistance', UNITS.ohm, 'resistance', 'circuit', 'resistance of the winding at coil.at_temperature (dc)'],
  ['inductance_free', UNITS.mH, 'free inductance', 'circuit', 'inductance without a plate'],
  ['inductance_rest', UNITS.mH, 'inductance at rest', 'circuit', 'inductance at the standoff'],
  ['inductance', UNITS.mH, 'inductance', 'circuit', 'inductance at the operating gap'],
  ['plate_resistance', UNITS.ohm, 'plate resistance', 'circuit', 'resistance reflected by the plate at the operating gap'],
  ['buzz_current', UNITS.A, 'buzz current', 'lift-off', 'rms current at which the peak force equals the weight: chatter begins'],
  ['liftoff_current', UNITS.A, 'lift-off current', 'lift-off', 'rms current at which the average force equals the weight at the standoff'],
  ['liftoff_voltage', UNITS.V, 'lift-off voltage', 'lift-off', "rms voltage at the coil's terminals at lift-off"],
  ['current', UNITS.A, 'current', 'operating point', 'rms coil current'],
  ['voltage', UNITS.V, 'voltage', 'operating point', "rms voltage at the coil's terminals"],
  ['power', UNITS.W, 'power', 'operating point', "active power at the coil's terminals"],
  ['power_factor', UNITS.one, 'power factor', 'operating point', "active over apparent power at the coil's terminals"],
  ['apparent_power', UNITS.VA, 'apparent power', 'operating point', "volt-amperes at the coil's terminals"],
  ['gap', UNITS.mm, 'gap', 'mechanics', 'bare plate surface to the nearest face of the winding'],
  ['height', UNITS.mm, 'height', 'mechanics', 'gap minus standoff; 0 at rest'],
  ['lift_force', UNITS.N, 'lift force', 'mechanics', 'average force at the standoff at the operating current; negative: attraction'],
  ['double_frequency_force', UNITS.N, 'double-frequency force', 'mechanics', 'amplitude of the force at twice the supply frequency, at the operating gap'],
  ['vibration', UNITS.um, 'vibration', 'mechanics', 'amplitude (not peak to peak) of the motion at twice the supply frequency'],
  ['stiffness', UNITS.N_per_mm, 'stiffness', 'mechanics', 'restoring force per displacement at the operating gap, at constant current'],
  ['bounce_frequency', UNITS.Hz, 'bounce frequency', 'mechanics', 'natural frequency of vertical motion, at constant current'],
  ['coil_loss', UNITS.W, 'coil loss', 'heat', 'loss in the winding at coil.at_temperature'],
  ['plate_loss', UNITS.W, 'plate loss', 'heat', 'loss in the plate'],
  ['current_density', UNITS.A_per_mm2, 'current density', 'heat', 'rms current over bare conductor area'],
  ['skin_depth', UNITS.mm, 'skin depth', 'plate', 'skin depth of the layer nearest the coil'],
  ['thickness_in_skin_depths', UNITS.one, 'thickness in skin depths', 'plate', 'plate thickness over skin depth, summed over the layers'],
] as const satisfies readonly Row[];

export type QuantityName = (typeof ROWS)[number][0];

export const QUANTITIES: readonly Quantity[] = Object.freeze(
  (ROWS as readonly Row[]).map(([name, unit, label, group, meaning], index) =>
    Object.freeze({
      name,
      column: unit.suffix === '' ? name : `${name}_${unit.suffix}`,
      index,
      unit,
      label,
      group,
      meaning,
    }),
  ),
);

/** Index of each quantity, for the code that computes it. */
export const Q = Object.freeze(
  Object.fromEntries(QUANTITIES.map((quantity) => [quantity.name, quantity.index])),
) as Readonly<Record<QuantityName, number>>;

export function quantityByName(name: string): Quantity | undefined {
  return Object.hasOwn(Q, name) ? QUANTITIES[Q[name as QuantityName]] : undefined;
}

/** The columns that frame every table: first what a row is, last whether it is on the front. */
export const FRAME = Object.freeze({
  design: 'row id: 0-based, in plan order',
  status:
    'lifts, rests (drive too weak), clamped, impossible (geometry or data rule it out), failed (no answer)',
  reason: 'why a design rests, is impossible or failed; empty otherwise',
  feasible: 'true when every limit is met',
  on_front: 'true when no other feasible design is at least as good in every objective and better in one',
});
