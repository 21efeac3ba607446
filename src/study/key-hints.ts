import type { Path } from './positions.ts';

/** What somebody means who writes a key that a study does not have; empty where that is not known. */
export function keyHint(key: string, path: Path): string {
  const name = key.toLowerCase().replaceAll('-', '_');
  const parent = String(path.filter((segment) => typeof segment === 'string').at(-1) ?? '');
  return entry(entry(BELOW, parent) ?? {}, name) ?? entry(ANYWHERE, name) ?? '';
}

/** What a table holds under a user's word: its own entry, never what every object inherits (`constructor`). */
function entry<T>(table: Readonly<Record<string, T>>, word: string): T | undefined {
  return Object.hasOwn(table, word) ? table[word] : undefined;
}

const PLATE_SIZE =
  '`radius: 200 mm` for a round plate, `square: 400 mm`, or `sides: [400 mm, 300 mm]` for its length and width';
const LIMIT_MASS =
  'a limit beside the rig: `limits: [coil_mass <= 3 kg]`; the mass follows from wire and turns';
const ON_TIME =
  'nothing: how long the winding may stay on is computed as `coil_on_time`; `limits: [coil_on_time >= 10 min]` sets a limit on it';
const HALF = 'half of it: `inner_radius: 50 mm`';

/** By the mapping that the key stands in. */
const BELOW: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  plate: {
    width: PLATE_SIZE,
    length: PLATE_SIZE,
    side: PLATE_SIZE,
    size: PLATE_SIZE,
    height: '`thickness`',
    diameter: 'half of it: `radius: 200 mm`',
    outer_radius: '`radius`',
    outer_diameter: 'half of it: `radius: 200 mm`',
    hole: '`inner_radius`: the radius of a central hole',
    material: '`metal`',
    alloy: '`metal`, such as aluminium-6082',
  },
  coil: {
    material: '`metal`',
    diameter: '`wire` for the wire, `inner_radius` for the winding',
    wire_diameter: '`wire`: the bare diameter',
    gauge: "`wire: 'AWG 12'`",
    inner_diameter: HALF,
    bobbin_diameter: HALF,
    outer_radius: '`layers`, from which it follows, or `section: {outer_radius: 166 mm, height: 17 mm}`',
    outer_diameter: '`layers`, from which it follows, or `section: {outer_radius: 166 mm, height: 17 mm}`',
    height: '`layers`, from which it follows, or `section: {outer_radius: 166 mm, height: 17 mm}`',
    enamel: '`insulation: grade 2`',
    insulation_class: '`thermal_class: 130 degC`',
    windings_count: '`turns`',
    parallel: '`strands`: wires in hand',
    temperature: '`at_temperature`',
    mass: '`extra_mass` for former, ties and leads; that of the winding follows from wire and turns',
    weight: '`extra_mass` for former, ties and leads; that of the winding follows from wire and turns',
  },
  supply: {
    voltage: '`max_voltage`: what the variable transformer gives at most; `line_voltage`: the mains',
    current: '`max_current`, or beside the rig `drive: {current: 12 A}`',
    capacitor: '`series_capacitance`',
    capacitance: '`series_capacitance`',
    resistance: '`series_resistance`',
    breaker: '`fuse: 16 A`',
  },
  rig: {
    gap: '`standoff`: the gap at rest',
    spacer: '`standoff`: the gap at rest',
    ambient: '`surroundings: {temperature: 22 degC}`',
    frequency: '`supply: {frequency: 50 Hz}`',
    drive: '`drive` beside `rig`, not in it',
  },
};

/** Wherever it stands. */
const ANYWHERE: Readonly<Record<string, string>> = {
  duty: ON_TIME,
  duty_cycle: ON_TIME,
  on_time: ON_TIME,
  available_mass: LIMIT_MASS,
  max_mass: LIMIT_MASS,
  mass_limit: LIMIT_MASS,
  max_temperature: 'a limit beside the rig: `limits: [coil_temperature <= 130 degC]`',
  max_power: 'a limit beside the rig: `limits: [power <= 500 W]`',
  title: '`study: a title in words`',
  name: '`study: a title in words`',
  description: '`notes`',
  goals: '`objectives: [{maximise: height}]`',
  constraints: '`limits: [current <= 16 A]`',
  sweep: '`vary: {coil.turns: [300, 400]}`',
  parameters: '`vary: {coil.turns: [300, 400]}`',
};
