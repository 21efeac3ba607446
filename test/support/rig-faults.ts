import { DiscCoupling } from '../../src/kernel/disc/disc-coupling.ts';
import { SplitCoupling } from '../../src/kernel/disc/split-coupling.ts';
import { FLOATS, FUSE_SIDES, SLOT } from '../../src/model/inputs.ts';
import { Q, QUANTITIES, type QuantityName } from '../../src/model/quantities.ts';
import { REASONS, STATUS, STATUSES } from '../../src/model/status.ts';
import { UNITS } from '../../src/model/units.ts';
import { CHECKED } from '../../src/rig/geometry.ts';
import { createLaws, type Laws } from '../../src/rig/laws.ts';
import { type Design, slotsOf } from './design.ts';

/** What a rig became, and everything about its row that cannot be. */
export interface Judged {
  readonly status: string;
  readonly reason: string;
  readonly faults: readonly string[];
  /** Multiplications that its disc took to set up; 0 over a wide plate. */
  readonly work: number;
}

/** Judges one rig after another; laws are kept by number of layers and windings, as in a run. */
export function createJudge(): (design: Design) => Judged {
  const kept = new Map<string, Laws>();
  return (design) => {
    const count = (pattern: RegExp) => Object.keys(design).filter((path) => pattern.test(path)).length;
    const layers = count(/^plate\.layers\.\d\.thickness$/);
    const windings = count(/^coil\.windings\.\d\.turns$/);
    const key = `${layers} ${windings}`;
    let laws = kept.get(key);
    if (!laws) {
      laws = createLaws(layers, windings);
      kept.set(key, laws);
    }
    const slots = slotsOf(design);
    laws.evaluate(slots);
    return {
      status: STATUSES[laws.status]!,
      reason: REASONS[laws.reason]!.key,
      faults: faultsOf(laws, slots),
      work:
        laws.coupling instanceof DiscCoupling || laws.coupling instanceof SplitCoupling
          ? laws.coupling.work
          : 0,
    };
  };
}

/** Known of every rig that has an operating point. */
const ALWAYS: readonly QuantityName[] = [
  'wire_length',
  'coil_mass',
  'coil_outer_radius',
  'winding_height',
  'space_factor',
  'resistance_cold',
  'resistance',
  'inductance_free',
  'inductance_rest',
  'inductance',
  'plate_resistance',
  'current',
  'voltage',
  'power',
  'power_factor',
  'apparent_power',
  'supply_voltage',
  'first_limit',
  'switch_on_current',
  'gap',
  'height',
  'lift_force',
  'double_frequency_force',
  'coil_loss',
  'plate_loss',
  'current_density',
  'heating_efficiency',
  'volts_per_turn',
  'skin_depth',
  'plate_model',
];

/** Attraction, unstable equilibria and heights below zero aside, nothing is negative. */
const SIGNED: ReadonlySet<string> = new Set<QuantityName>([
  'linear_lift_ratio',
  'lift_force',
  'switch_on_lift_over_weight',
  'pan_lift_over_weight',
  'pan_peak_lift_over_weight',
  'stiffness',
  'hum_level',
]);

/** Balances close to this: rounding of a few operations. */
const BALANCE = 1e-9;

function faultsOf(laws: Laws, slots: Float64Array): string[] {
  const { results: r, status } = laws;
  const faults: string[] = [];
  const expect = (holds: boolean, fault: string) => {
    if (!holds) faults.push(fault);
  };
  const close = (a: number, b: number, name: string, tolerance = BALANCE) =>
    expect(Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b)), `${name}: ${a} is not ${b}`);
  const at = (name: QuantityName) => r[Q[name]]!;
  const slot = (name: keyof typeof SLOT) => slots[SLOT[name]]!;

  for (const { name, index, unit } of QUANTITIES) {
    const value = r[index]!;
    if (value < 0 && !SIGNED.has(name)) faults.push(`${name} is ${value}`);
    if (Math.abs(value) === Number.POSITIVE_INFINITY && unit !== UNITS.s) faults.push(`${name} is infinite`);
  }
  if (status === STATUS.impossible || status === STATUS.failed) {
    const { text } = REASONS[laws.reason]!;
    expect(text !== '', 'no reason');
    expect(REASONS[laws.reason]!.key !== 'threw', 'threw');
    return faults;
  }
  for (const name of ALWAYS) expect(!Number.isNaN(at(name)), `${name} is empty`);

  close(at('power'), at('coil_loss') + at('plate_loss'), 'power of coil and plate');
  close(at('apparent_power'), at('voltage') * at('current'), 'volt-amperes');
  close(at('power'), at('apparent_power') * at('power_factor'), 'power by its factor');
  const resistance = at('resistance') + at('plate_resistance');
  const reactance = 2 * Math.PI * slot('frequency') * at('inductance');
  close(at('voltage'), at('current') * Math.hypot(resistance, reactance), 'voltage by impedance');
  expect(at('power_factor') <= 1 + BALANCE, 'power factor above one');
  expect(at('heating_efficiency') <= 1 + BALANCE, 'efficiency above one');
  expect(at('space_factor') < 1, 'more copper than section');

  // status and height
  const floats = slot('floats') !== FLOATS.nothing;
  expect((status === STATUS.clamped) === !floats, 'clamped and floating');
  if (status === STATUS.lifts) {
    expect(at('height') > 0, 'lifts to no height');
    expect(at('gap') <= Math.max(CHECKED.gap.maximum, slot('standoff')), 'beyond the checked gap');
    for (const name of ['liftoff_current', 'stiffness', 'vibration'] as const) {
      expect(!Number.isNaN(at(name)), `${name} is empty`);
    }
    const carried = carriedAt(laws, slots, at('gap'), at('current'));
    expect(Math.abs(carried - 1) < 1e-5, `carries ${carried} of its weight at its gap`);
  } else {
    expect(at('height') === 0, 'rests at a height');
    if (floats && REASONS[laws.reason]!.key === 'weak') {
      expect(at('current') <= at('liftoff_current') * (1 + BALANCE), 'weak above lift-off');
    }
  }

  // the drive is met, and no more
  const current = slot('driveCurrent');
  const voltage = slot('driveVoltage');
  const jumps = REASONS[laws.reason]!.key === 'jumps';
  if (!Number.isNaN(current)) close(at('current'), current, 'current of the drive');
  else if (!Number.isNaN(voltage)) {
    if (status === STATUS.lifts) {
      // a coil may be held before a jump: below the voltage, never above
      expect(at('supply_voltage') <= voltage * (1 + MET), 'voltage beyond the drive');
      if (Number.isNaN(slot('seriesCapacitance')))
        close(at('supply_voltage'), voltage, 'voltage of the drive', MET);
    } else if (!jumps) close(at('supply_voltage'), voltage, 'voltage of the drive', MET);
  } else {
    const uses = [
      at('supply_voltage') / slot('maxVoltage'),
      at('current') / slot('maxCurrent'),
      1 / at('fuse_margin'),
    ].filter((use) => !Number.isNaN(use));
    const most = Math.max(...uses);
    expect(most <= 1 + MET, `limit of the supply exceeded: ${most}`);
    const held =
      !Number.isNaN(slot('seriesCapacitance')) || !Number.isNaN(laws.results[Q.plate_flux_density]!);
    if (!jumps && !(held && status === STATUS.lifts)) expect(most >= 1 - MET, `no limit reached: ${most}`);
  }
  const onLine = slot('fuseSide') === FUSE_SIDES.line;
  if (!Number.isNaN(slot('fuseRating')) && !onLine) {
    close(at('fuse_margin'), slot('fuseRating') / at('current'), 'fuse margin');
  }

  // heat
  const room = slot('surroundings');
  const class_ = slot('thermalClass');
  const warm = at('coil_hot_spot');
  if (!Number.isNaN(class_)) {
    const never = at('coil_on_time') === Number.POSITIVE_INFINITY;
    expect(!Number.isNaN(at('coil_on_time')), 'coil_on_time is empty');
    // of several windings the hottest speaks
    if (!Number.isNaN(warm))
      expect(never === warm <= class_ || class_ === room, 'on-time against steady temperature');
  }
  return faults;
}

/** A voltage is met with the winding's resistance at the gap found with that at the standoff: see `findGap`. */
const MET = 1e-5;

/** Average lift at a gap over the weight, asked anew. */
function carriedAt(laws: Laws, slots: Float64Array, gap: number, current: number): number {
  const { coupling } = laws;
  if (!coupling) return Number.NaN;
  const liftoff = laws.results[Q.liftoff_current]!;
  const atRest = laws.results[Q.lift_force]!;
  // lift_force is at the standoff, lift-off current lifts exactly the weight there
  const weight = atRest * (liftoff / current) ** 2;
  coupling.evaluateLift(gap);
  void slots;
  return (current * current * coupling.slopeRe) / 2 / weight;
}
