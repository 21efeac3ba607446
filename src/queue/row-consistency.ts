import { Q, QUANTITIES } from '../model/quantities.ts';
import { RESTING_EXCESS, type RowBatch } from '../model/rows.ts';
import { isEvaluated, REASON, REASONS, STATUS, STATUSES } from '../model/status.ts';
import { UNITS } from '../model/units.ts';

/** What every design that could be evaluated has, whatever its drive, plate and surroundings. */
const ALWAYS = [
  Q.wire_length,
  Q.coil_mass,
  Q.coil_outer_radius,
  Q.winding_height,
  Q.resistance,
  Q.inductance_rest,
  Q.inductance,
  Q.current,
  Q.voltage,
  Q.power,
  Q.coil_loss,
  Q.plate_loss,
  Q.gap,
  Q.height,
] as const;
/** Of these, what is never 0 or below. */
const POSITIVE = [Q.wire_length, Q.coil_mass, Q.resistance, Q.inductance_rest, Q.inductance, Q.gap] as const;

/** A design may lift that its supply or its stock does not allow. */
const LIFTS_WITH: readonly number[] = [
  REASON.none,
  REASON.beyondVoltage,
  REASON.beyondCurrent,
  REASON.beyondFuse,
  REASON.shortReel,
  REASON.smallSheet,
  REASON.capacitorRating,
];

/** Times may be infinite: a limit that is never reached. */
const NEVER_INFINITE = QUANTITIES.filter(({ unit }) => unit !== UNITS.s).map(({ index }) => index);

/**
 * How rows contradict themselves, in words; null where they do not. It costs a few comparisons a row and evaluates
 * nothing: numbers that are wrong and agree with each other pass.
 */
export function contradiction(rows: RowBatch): string | null {
  for (let i = 0; i < rows.count; i++) {
    const what = contradictionOf(rows, i);
    if (what !== null) return `its row ${i} ${what}`;
  }
  return null;
}

function contradictionOf(rows: RowBatch, i: number): string | null {
  const { count, quantities } = rows;
  const status = rows.status[i]!;
  const reason = rows.reason[i]!;
  const feasible = rows.feasible[i]!;
  const unmet = rows.unmet[i]!;
  const violation = rows.violation[i]!;
  const of = (quantity: number) => quantities[quantity * count + i]!;
  if (status >= STATUSES.length || reason >= REASONS.length || feasible > 1) {
    return 'has a status or reason that does not exist';
  }
  const name = STATUSES[status]!;
  for (const quantity of NEVER_INFINITE) {
    if (Math.abs(of(quantity)) === Number.POSITIVE_INFINITY) {
      return `has an infinite ${QUANTITIES[quantity]!.name}`;
    }
  }
  if (!isEvaluated(status)) {
    if (reason === REASON.none) return `is ${name} without a reason`;
    if (feasible !== 0 || unmet !== 0 || violation !== Number.POSITIVE_INFINITY) {
      return `is ${name} and is judged by limits`;
    }
    return null;
  }
  for (const quantity of ALWAYS) {
    if (!Number.isFinite(of(quantity))) return `${name} without ${QUANTITIES[quantity]!.name}`;
  }
  for (const quantity of POSITIVE) {
    if (of(quantity) <= 0) return `has a ${QUANTITIES[quantity]!.name} that is not above 0`;
  }
  const height = of(Q.height);
  if (status === STATUS.lifts ? height < 0 : height !== 0) return `${name} at another height`;
  if (status === STATUS.lifts && !LIFTS_WITH.includes(reason)) return `${name} with a reason not to`;
  if ((feasible === 1) !== (unmet === 0)) return 'is feasible and breaks a limit, or neither';
  const least = status === STATUS.rests ? RESTING_EXCESS : 0;
  const fits = (violation === least) === (unmet === 0) && violation >= least;
  return fits ? null : 'breaks its limits by another amount';
}
