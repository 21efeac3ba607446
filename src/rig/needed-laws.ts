import type { Derived, Program } from '../model/program.ts';
import { Q, type QuantityName } from '../model/quantities.ts';

/** Laws that no other law needs, and whether anybody reads what they compute. */
export interface NeededLaws {
  readonly circulation: boolean;
  readonly heat: boolean;
  readonly insulation: boolean;
  readonly exposure: boolean;
  readonly stock: boolean;
}

export const EVERY_LAW: NeededLaws = {
  circulation: true,
  heat: true,
  insulation: true,
  exposure: true,
  stock: true,
};

export const NO_OTHER_LAW: NeededLaws = {
  circulation: false,
  heat: false,
  insulation: false,
  exposure: false,
  stock: false,
};

/** What each of them computes. */
const COMPUTED: Readonly<Record<keyof NeededLaws, readonly QuantityName[]>> = {
  circulation: ['strand_circulation'],
  heat: [
    'heating_efficiency',
    'load_power_needed',
    'load_heating_time',
    'plate_temperature',
    'plate_time_to_60degC',
    'coil_temperature',
    'coil_surface',
    'coil_hot_spot',
    'coil_on_time',
    'coil_cool_time',
    'resistance_hot',
  ],
  insulation: [
    'voltage_to_earth',
    'volts_per_turn',
    'volts_between_layers',
    'insulation_margin',
    'impulse_margin',
  ],
  exposure: ['field_visitor', 'field_on_axis', 'field_operator', 'field_on_axis_operator', 'field_at_coil'],
  stock: ['wire_to_buy', 'wire_cost', 'plate_cost', 'rig_cost', 'stock_use'],
};

/** @param wanted quantities that are read, indices */
export function neededLaws(wanted: ReadonlySet<number>): NeededLaws {
  const needs = (law: keyof NeededLaws) => COMPUTED[law].some((name) => wanted.has(Q[name]));
  return {
    circulation: needs('circulation'),
    heat: needs('heat'),
    insulation: needs('insulation'),
    exposure: needs('exposure'),
    stock: needs('stock'),
  };
}

/** The quantities that programs read, also through derived quantities and their quantiles. */
export function readQuantities(programs: readonly Program[], derive: readonly Derived[]): Set<number> {
  const read = new Set<number>();
  const visit = (program: Program): void => {
    for (const instruction of program) {
      if (instruction.op === 'quantity') read.add(instruction.index);
      if (instruction.op !== 'derived') continue;
      const { statistic, program: own } = derive[instruction.index]!;
      if (statistic?.kind === 'quantile') read.add(statistic.quantity);
      visit(own);
    }
  };
  for (const program of programs) visit(program);
  return read;
}
