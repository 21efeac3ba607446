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
  /** Words by code, for a quantity whose number stands for a word; empty for numbers. */
  readonly words: readonly string[];
  /**
   * What it costs beside all that is always computed, roughly, as a multiple of that; 0: it is always computed. Anything
   * else is computed on request: where a study names it, on cards and for a report's designs.
   */
  readonly effort: number;
}

export type Group =
  | 'winding'
  | 'circuit'
  | 'lift-off'
  | 'operating point'
  | 'supply'
  | 'mechanics'
  | 'heat'
  | 'heating rig'
  | 'insulation'
  | 'people'
  | 'plate'
  | 'stock and cost';

type Row = readonly [
  name: string,
  unit: Unit,
  label: string,
  group: Group,
  meaning: string,
  words?: readonly string[],
];

// biome-ignore format: a table reads better in rows
const ROWS = [
  ['wire_length', UNITS.m, 'wire length', 'winding', 'length of one wire in the winding: 2 pi x mean radius x turns'],
  ['coil_mass', UNITS.kg, 'coil mass', 'winding', 'conductor, insulation and extra mass'],
  ['coil_outer_radius', UNITS.mm, 'coil outer radius', 'winding', 'outer radius of the winding'],
  ['winding_height', UNITS.mm, 'winding height', 'winding', 'extent of the winding along the axis'],
  ['space_factor', UNITS.one, 'space factor', 'winding', 'bare conductor area over section area'],
  ['resistance_cold', UNITS.ohm, 'cold resistance', 'circuit', 'dc resistance at the temperature of the surroundings'],
  ['resistance', UNITS.ohm, 'resistance', 'circuit', 'resistance of the winding at coil.at_temperature, skin and proximity effect included'],
  ['strand_circulation', UNITS.one, 'circulating currents', 'circuit', 'what currents that circulate between wires in hand add to the resistance, over the rest, while they do not change places; 0 for one wire and where the study says that they are transposed; part of resistance only where it says that they are not'],
  ['inductance_free', UNITS.mH, 'free inductance', 'circuit', 'inductance without a plate'],
  ['inductance_rest', UNITS.mH, 'inductance at rest', 'circuit', 'inductance at the standoff'],
  ['inductance', UNITS.mH, 'inductance', 'circuit', 'inductance at the operating gap'],
  ['plate_resistance', UNITS.ohm, 'plate resistance', 'circuit', 'resistance reflected by the plate at the operating gap'],
  ['chatter_current', UNITS.A, 'chatter current', 'lift-off', 'rms current at which the peak force equals the weight: chatter begins'],
  ['liftoff_current', UNITS.A, 'lift-off current', 'lift-off', 'rms current at which the average force equals the weight at the standoff'],
  ['liftoff_voltage', UNITS.V, 'lift-off voltage', 'lift-off', "rms voltage at the coil's terminals at lift-off"],
  ['current', UNITS.A, 'current', 'operating point', 'rms coil current'],
  ['voltage', UNITS.V, 'voltage', 'operating point', "rms voltage at the coil's terminals"],
  ['power', UNITS.W, 'power', 'operating point', "active power at the coil's terminals"],
  ['power_factor', UNITS.one, 'power factor', 'operating point', "active over apparent power at the coil's terminals"],
  ['apparent_power', UNITS.VA, 'apparent power', 'operating point', "volt-amperes at the coil's terminals"],
  ['supply_voltage', UNITS.V, 'supply voltage', 'supply', "rms voltage at the variable transformer's outlet: coil, series resistance and capacitance"],
  ['capacitor_voltage', UNITS.V, 'capacitor voltage', 'supply', 'rms voltage across the series capacitor'],
  ['line_current', UNITS.A, 'line current', 'supply', 'rms current on the mains side of an ideal variable transformer: supply volt-amperes over line voltage'],
  ['fuse_margin', UNITS.one, 'fuse margin', 'supply', "fuse rating over the current on the fuse's side"],
  ['fuse_holds', UNITS.s, 'fuse holds', 'supply', 'how long the fuse carries this current at least, by its standard'],
  ['fuse_blows', UNITS.s, 'fuse blows', 'supply', 'how long it may take the fuse to blow at most, by its standard'],
  ['first_limit', UNITS.one, 'first limit', 'supply', 'limit of the supply that ends the rise of the drive, or that a fixed drive uses hardest: voltage, current, fuse or none', ['none', 'voltage', 'current', 'fuse']],
  ['supply_loading', UNITS.one, 'supply loading', 'supply', 'largest of supply voltage over max_voltage, current over max_current and fuse current over fuse rating: above one the supply cannot give the drive'],
  ['switch_on_current', UNITS.A, 'switch-on current', 'supply', 'rms current when the operating supply voltage is applied at once to the resting rig'],
  ['switch_on_peak', UNITS.A, 'switch-on peak', 'supply', 'largest instantaneous current of the first cycle when that is done at the worst instant, the rig at rest; empty with a series capacitor'],
  ['switch_on_trips', UNITS.one, 'switch-on trips', 'supply', 'whether the magnetic trip of a circuit breaker sees that peak: no, may be or yes; empty for a fuse', ['no', 'may be', 'yes']],
  ['switch_on_lift_over_weight', UNITS.one, 'switch-on lift over weight', 'supply', 'average lift over weight at switch-on'],
  ['pf_correction_capacitance', UNITS.uF, 'power-factor-correction capacitance', 'supply', "capacitor across the variable transformer's outlet that would bring its power factor to one at the operating point"],
  ['pf_correction_capacitor_voltage', UNITS.V, 'power-factor-correction capacitor voltage', 'supply', 'rms voltage across that capacitor'],
  ['pf_correction_current', UNITS.A, 'power-factor-correction current', 'supply', "rms current at the variable transformer's outlet with that capacitor"],
  ['stored_energy', UNITS.J, 'stored energy', 'supply', "energy of the coil's field at the peak of the current, which an interruption sets free: inductance times rms current squared"],
  ['capacitor_energy', UNITS.J, 'capacitor energy', 'supply', 'energy of the series capacitor at the peak of its voltage: capacitance times rms voltage squared'],
  ['resonance_ratio', UNITS.one, 'resonance ratio', 'supply', "resonant frequency of coil and series capacitor at the operating gap over the supply's: 1 is resonance"],
  ['voltage_rise', UNITS.one, 'voltage rise', 'supply', "larger of the coil's and the series capacitor's voltage over the supply's"],
  ['gap', UNITS.mm, 'gap', 'mechanics', 'bare plate surface to the nearest face of the winding'],
  ['height', UNITS.mm, 'height', 'mechanics', 'gap minus standoff; 0 at rest'],
  ['lift_force', UNITS.N, 'lift force', 'mechanics', 'average force at the standoff at the operating current; negative: attraction'],
  ['double_frequency_force', UNITS.N, 'double-frequency force', 'mechanics', 'amplitude of the force at twice the supply frequency, at the operating gap'],
  ['vibration', UNITS.um, 'vibration', 'mechanics', 'amplitude (not peak to peak) of the motion at twice the supply frequency'],
  ['stiffness', UNITS.N_per_mm, 'stiffness', 'mechanics', 'restoring force per displacement at the operating gap, at constant current, or at constant supply voltage where the drive is one'],
  ['natural_frequency', UNITS.Hz, 'natural frequency', 'mechanics', 'natural frequency of vertical motion, with the same constraint'],
  ['fall_energy', UNITS.J, 'fall energy', 'mechanics', 'energy with which what floats comes down when the power fails: weight times height'],
  ['hum_level', UNITS.dBA, 'hum level', 'mechanics', 'sound 1 m from what floats, at twice the supply frequency: an estimate, that of a disc of its size in a wall'],
  ['coil_loss', UNITS.W, 'coil loss', 'heat', 'loss in the winding at coil.at_temperature'],
  ['plate_loss', UNITS.W, 'plate loss', 'heat', 'loss in the plate'],
  ['current_density', UNITS.A_per_mm2, 'current density', 'heat', 'rms current over bare conductor area'],
  ['coil_temperature', UNITS.degC, 'coil temperature', 'heat', 'steady mean temperature of the winding with the operating current held; empty where it never settles'],
  ['coil_surface', UNITS.degC, 'coil surface', 'heat', "likewise, of the winding's face away from the plate"],
  ['coil_hot_spot', UNITS.degC, 'coil hot spot', 'heat', 'likewise, of the hottest place inside the winding'],
  ['coil_on_time', UNITS.s, 'coil on-time', 'heat', 'permitted on-time: from the surroundings until the hottest place of the winding is at the thermal class, with the operating current held; infinite if never reached'],
  ['coil_cool_time', UNITS.s, 'coil cool-down time', 'heat', 'mean of the winding from the end of the on-time, or the steady state if there is none, to 10 K above the surroundings with the current off'],
  ['resistance_hot', UNITS.ohm, 'hot resistance', 'heat', 'dc resistance at the end of the on-time, or in the steady state if there is none: what a meter reads on the hot winding'],
  ['plate_temperature', UNITS.degC, 'plate temperature', 'heat', 'steady mean temperature of a plate of a given radius alone (without its load), its far side insulated, with what the winding gives it'],
  ['plate_time_to_60degC', UNITS.s, 'plate time to 60 °C', 'heat', 'of the same plate by its own loss: from the surroundings to 60 degC'],
  ['plate_flux_density', UNITS.T, 'plate flux density', 'heat', 'peak flux density in the magnetic layer nearest the coil'],
  ['load_heating_time', UNITS.s, 'load heating time', 'heating rig', 'time to warm plate.load from its first to its last temperature, with what its vessel loses; infinite if never reached'],
  ['load_power_needed', UNITS.W, 'power to warm the load', 'heating rig', 'loss in the plate that would just bring plate.load to its last temperature'],
  ['heating_efficiency', UNITS.one, 'heating efficiency', 'heating rig', "plate loss over power at the coil's terminals"],
  ['pan_lift_over_weight', UNITS.one, 'pan lift over weight', 'heating rig', 'average force on the clamped plate over the weight of plate, extra mass and load'],
  ['pan_peak_lift_over_weight', UNITS.one, 'pan peak lift over weight', 'heating rig', 'peak force over the same weight: above one it rattles'],
  ['volts_per_turn', UNITS.V, 'volts per turn', 'insulation', 'rms voltage of one turn at the operating point'],
  ['volts_between_layers', UNITS.V, 'volts between layers', 'insulation', 'highest rms voltage between neighbouring layers, from the field of coil and plate'],
  ['voltage_to_earth', UNITS.V, 'voltage to earth', 'insulation', 'highest rms voltage to earth that an end of the coil may have, the plug either way round; behind an isolating transformer, once one point touches earth; empty without line_voltage'],
  ['insulation_margin', UNITS.one, 'insulation margin', 'insulation', 'breakdown of one enamel film and the standoff over the peak of the voltage to earth, the plate being earthed'],
  ['impulse_margin', UNITS.one, 'impulse margin', 'insulation', 'the same breakdown over the rated impulse voltage of overvoltage category II at line_voltage (IEC 60664-1): 2.5 kV on mains of 230 V'],
  ['field_visitor', UNITS.mT, 'field at the visitor', 'people', "rms flux density at visitor_distance from the axis in the coil's mid-plane, the larger of coil alone and coil with plate"],
  ['field_on_axis', UNITS.mT, 'field on the axis', 'people', 'rms flux density on the axis at the same distance from the coil, away from the plate'],
  ['field_operator', UNITS.mT, 'field at the operator', 'people', 'as field_visitor, at operator_distance'],
  ['field_on_axis_operator', UNITS.mT, "field on the axis, operator's distance", 'people', 'as field_on_axis, at operator_distance'],
  ['field_at_coil', UNITS.mT, 'field at the coil', 'people', 'rms flux density on the axis in the middle of the coil, without the plate; windings of either sense added up'],
  ['skin_depth', UNITS.mm, 'skin depth', 'plate', 'skin depth of the layer nearest the coil'],
  ['thickness_in_skin_depths', UNITS.one, 'thickness in skin depths', 'plate', 'plate thickness over skin depth, summed over the layers'],
  ['plate_permeability', UNITS.one, 'plate permeability', 'plate', 'relative permeability, in size, of a linear plate that answers as the saturated layer nearest the coil does; empty where nothing saturates'],
  ['linear_loss_ratio', UNITS.one, 'linear over real loss', 'plate', 'plate loss that a plate which keeps its permeability at low field would have at this current and gap, over plate_loss: how far a linear answer is off; empty where nothing saturates'],
  ['linear_lift_ratio', UNITS.one, 'linear over real lift', 'plate', 'likewise, of the average lift or pull; negative where the sign would be wrong'],
  ['plate_model', UNITS.one, 'plate model', 'plate', 'which plate the row was computed with: wide (no edge) or disc (finite, edge resolved)', ['wide', 'disc']],
  ['wire_to_buy', UNITS.kg, 'wire to buy', 'stock and cost', 'wire of the winding with its waste, in whole reels where the stock file gives what is on one'],
  ['wire_cost', UNITS.money, 'wire cost', 'stock and cost', 'price of that wire, in the currency of the stock file; empty without a price'],
  ['plate_cost', UNITS.money, 'plate cost', 'stock and cost', 'price of the sheet, or of the rectangle that the plate is cut from; empty without a price'],
  ['rig_cost', UNITS.money, 'rig cost', 'stock and cost', 'wire, plate, extras, and fuse, capacitor and variable transformer where they come from stock; empty where one of them has no price'],
  ['stock_use', UNITS.one, 'stock use', 'stock and cost', 'largest of wire over what the reels hold, plate over the sheet and capacitor voltage over its rating: above one the stock cannot give the design'],
  ['transformer_holds', UNITS.s, 'transformer holds', 'supply', 'how long the variable transformer may give the current: infinite up to its rated current, then as its overload table allows, 0 beyond that; empty without a rated current'],
] as const satisfies readonly Row[];

// biome-ignore format: a table reads better in rows
const ON_REQUEST = [
  [2, 'bounce_growth', UNITS.per_s, 'bounce growth', 'mechanics', 'rate at which a small vertical bounce grows by itself, with guides.drag, the same constraint and the delay of the currents; negative: it dies away'],
  [2, 'guide_damping', UNITS.N_s_per_m, 'guide damping', 'mechanics', 'drag that leads, posts or air must have in all so that a small bounce does not grow; 0 where it dies away without'],
  [2, 'damped_natural_frequency', UNITS.Hz, 'damped natural frequency', 'mechanics', 'frequency of the small bounce with drag and the delay of the currents'],
  [60, 'sideways_stiffness', UNITS.N_per_mm, 'sideways stiffness', 'mechanics', 'restoring force per sideways displacement of what floats, kept level, at the operating gap; negative: it is pushed off; 0 over a plate without an edge'],
  [60, 'tilt_stiffness', UNITS.N_m_per_deg, 'tilt stiffness', 'mechanics', "restoring torque per tilt of what floats about its own centre of mass, kept in the middle, weight included; negative: it tips over"],
  [60, 'centring_stiffness', UNITS.N_per_mm, 'centring stiffness', 'mechanics', 'restoring force per sideways displacement of what floats, free to lean as it likes; negative: it slides off; empty where it tips over'],
  [150, 'sideways_force', UNITS.N, 'sideways force', 'mechanics', "mean outward force on what floats, or on a clamped plate, at surroundings.sideways_shift beside the axis (left out: a tenth of the coil's outer radius), at the operating gap; negative: back to the middle"],
  [150, 'post_force', UNITS.N, 'post force', 'mechanics', 'largest outward force within guides.play, which one guide post has to take; 0 where it centres itself'],
  [4000, 'overshoot', UNITS.mm, 'overshoot', 'mechanics', 'how far above its height it jumps when the operating supply voltage is switched on at once, at the worst phase of the mains'],
  [4000, 'settling_time', UNITS.s, 'settling time', 'mechanics', 'from then until it stays within a millimetre of its height; infinite where it has not within 20 s'],
  [4000, 'peak_switch_on_current', UNITS.A, 'peak switch-on current', 'mechanics', 'largest instantaneous current then'],
  [1, 'landing_speed', UNITS.m_per_s, 'landing speed', 'mechanics', 'speed at which it meets its standoff when the power fails and the circuit opens'],
  [3, 'height_after_on_time', UNITS.mm, 'height after the on-time', 'heat', 'height that is left when the drive is set cold and then left alone for duty.on, or else for the permitted on-time, or until it is steady'],
  [3, 'lands_after', UNITS.s, 'lands after', 'heat', 'from the same moment: when a warming coil at a held voltage has come down to its standoff; infinite if it never does'],
  [3, 'coil_peak', UNITS.degC, 'coil peak', 'heat', 'hottest place of the winding in the course of a cycle of duty, on and off all day, without a load; empty where it never settles'],
  [3, 'plate_peak', UNITS.degC, 'plate peak', 'heat', 'likewise, of the plate'],
  [3, 'height_least', UNITS.mm, 'least height', 'heat', 'lowest height while it is on in such a cycle'],
] as const satisfies readonly (readonly [effort: number, ...Row])[];

export type QuantityName = (typeof ROWS)[number][0] | (typeof ON_REQUEST)[number][1];

/** Those on request come last: rows without them end before (see `quantityColumns`). */
export const QUANTITIES: readonly Quantity[] = Object.freeze(
  [...ROWS.map((row) => [0, ...(row as Row)] as const), ...ON_REQUEST].map(
    ([effort, name, unit, label, group, meaning, words = []]: readonly [number, ...Row], index) =>
      Object.freeze({
        name,
        column: unit.suffix === '' ? name : `${name}_${unit.suffix}`,
        index,
        unit,
        label,
        group,
        meaning,
        words,
        effort,
      }),
  ),
);

/** Indices of all that are computed on request: what cards and the designs of a report show. */
export const ALL_ON_REQUEST: readonly number[] = Object.freeze(
  QUANTITIES.filter(({ effort }) => effort > 0).map(({ index }) => index),
);

/**
 * Columns of quantities in rows for which these were requested (indices, ascending): all that are always computed, and on
 * to the last one requested. Those between that were not requested are empty.
 */
export function quantityColumns(requested: readonly number[] = []): number {
  return requested.length === 0 ? ROWS.length : requested[requested.length - 1]! + 1;
}

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
  start: 'which start of the descents the row belongs to, from 0; empty for the scatter before them',
  step: 'how many designs its start had evaluated before, so 0 for where it began',
  status:
    'lifts, rests (drive too weak), clamped, impossible (geometry or data rule it out), failed (no answer)',
  reason: 'why a design rests, is impossible or failed; empty otherwise',
  feasible: 'true when every limit is met',
  on_front:
    'true when no other feasible design is at least as good in every objective and better in one; a design that rests only where none floats',
});
