import { INPUTS, LAYER_THICKNESS, SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import { REASONS, STATUS, STATUSES } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { inputToUnit, UNITS } from '../model/units.ts';
import type { ChangedLever, Improvement, Improvements } from '../rig/improve.ts';
import { measure, significant } from '../text/significant.ts';

/** Why a rig stays down, in one sentence with its numbers. */
export function restingWords(slots: Float64Array, results: Float64Array): string {
  const textOf = (name: QuantityName) => measure(results[Q[name]]!, QUANTITIES[Q[name]]!.unit);
  const depths = results[Q.thickness_in_skin_depths]!;
  const thickness = slots[SLOT.plateLayers + LAYER_THICKNESS]!;
  const plate = Number.isNaN(depths)
    ? 'the plate is thick'
    : `the plate, ${measure(thickness, UNITS.mm)} at the coil's side, is ${significant(depths)} skin depths thick`;
  const needed = results[Q.liftoff_current]!;
  const has = Number.isNaN(results[Q.current]!) ? '' : `, the drive gives ${textOf('current')}`;
  const lift = Number.isNaN(needed)
    ? 'it attracts more than its currents repel, at any current'
    : `lift-off needs ${textOf('liftoff_current')}${has}`;
  return `It rests: ${plate}; ${lift}.`;
}

/** `coil.turns 440 -> 520`. */
export function leverWords(changes: readonly ChangedLever[], slots: Float64Array): string {
  return changes
    .map(({ path, slot, to }) => {
      if (typeof to !== 'number') return `${path} -> ${to.label}`;
      return `${path} ${valueText(slot!, slots[slot!]!)} -> ${valueText(slot!, to)}`;
    })
    .join(', ');
}

function valueText(slot: number, si: number): string {
  const { unit } = INPUTS[slot]!;
  const value = significant(inputToUnit(si, unit));
  return unit.symbol === '' ? value : `${value} ${unit.symbol}`;
}

/** What people want first of a changed rig, and what it costs. */
const COSTS: readonly (readonly [QuantityName, string])[] = [
  ['power', 'power'],
  ['coil_mass', 'coil'],
  ['coil_temperature', 'coil at last'],
  ['rig_cost', 'rig'],
];

/** What comes of a change: height, what it costs, and the limits that it meets or breaks. */
export function outcomeWords(study: Study, now: Improvement, changed: Improvement): string {
  const { results, status, reason, broken } = changed;
  const state =
    status === STATUS.lifts
      ? `floats ${measure(results[Q.height]!, UNITS.mm)}`
      : REASONS[reason]!.text === ''
        ? STATUSES[status]!
        : `${STATUSES[status]}: ${REASONS[reason]!.text}`;
  const costs = COSTS.flatMap(([name, label]) => {
    const { index, unit } = QUANTITIES[Q[name]]!;
    const [was, is] = [now.results[index]!, results[index]!];
    return Number.isNaN(is) || Math.abs(is - was) < SAME * Math.abs(was)
      ? []
      : [`${label} ${measure(is, unit)}`];
  });
  const rises = Number.isNaN(results[Q.coil_temperature]!) && !Number.isNaN(now.results[Q.coil_temperature]!);
  return [state, ...costs, ...(rises ? ['coil never settles'] : []), limitWords(study, broken)].join(', ');
}

/** A smaller change, relatively, is none to a builder. */
const SAME = 5e-3;

function limitWords({ limits }: Study, broken: readonly number[]): string {
  if (limits.length === 0) return 'no limits to meet';
  if (broken.length === 0) return 'meets all limits';
  return `breaks ${broken.map((i) => `'${limits[i]!.text}'`).join(', ')}`;
}

/** A line each for the remedies nearest to a rig. */
export function remedyRows(
  study: Study,
  slots: Float64Array,
  { now, single, pair }: Improvements,
  most = Number.POSITIVE_INFINITY,
): (readonly [what: string, outcome: string])[] {
  const shown = [...single.slice(0, most), ...(pair ? [pair] : [])];
  return shown.map((each) => [leverWords(each.changes, slots), outcomeWords(study, now, each)]);
}
