import { Q, QUANTITIES } from '../model/quantities.ts';
import { column, RESTING_EXCESS, type RowBatch } from '../model/rows.ts';
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
 * How rows contradict themselves, in words; null where they do not. It evaluates nothing: numbers that are wrong and agree
 * with each other pass. Cells are looked at column by column, as they lie; row by row it took four times as long. Of several
 * contradictions the first of the first row is named.
 */
export function contradiction(rows: RowBatch): string | null {
  const { status } = rows;
  let end = rows.count;
  let words: string | null = null;
  const name = (row: number, what: string) => {
    end = row;
    words = `its row ${row} ${what}`;
  };
  for (let i = 0; i < end; i++) {
    if (!isKnown(rows, i)) name(i, 'has a status or reason that does not exist');
  }
  for (const quantity of NEVER_INFINITE) {
    if (quantity >= rows.quantities.length / rows.count) break;
    const cells = column(rows, rows.quantities, quantity);
    for (let i = 0; i < end; i++) {
      if (Math.abs(cells[i]!) === Number.POSITIVE_INFINITY) {
        name(i, `has an infinite ${QUANTITIES[quantity]!.name}`);
      }
    }
  }
  for (const quantity of ALWAYS) {
    const cells = column(rows, rows.quantities, quantity);
    for (let i = 0; i < end; i++) {
      if (!Number.isFinite(cells[i]!) && isEvaluated(status[i]!)) {
        name(i, `${STATUSES[status[i]!]} without ${QUANTITIES[quantity]!.name}`);
      }
    }
  }
  for (const quantity of POSITIVE) {
    const cells = column(rows, rows.quantities, quantity);
    for (let i = 0; i < end; i++) {
      if (cells[i]! <= 0 && isEvaluated(status[i]!)) {
        name(i, `has a ${QUANTITIES[quantity]!.name} that is not above 0`);
      }
    }
  }
  const heights = column(rows, rows.quantities, Q.height);
  for (let i = 0; i < end; i++) {
    const what = verdictContradiction(rows, i, heights[i]!);
    if (what !== null) name(i, what);
  }
  return words;
}

function isKnown({ status, reason, feasible }: RowBatch, i: number): boolean {
  return status[i]! < STATUSES.length && reason[i]! < REASONS.length && feasible[i]! <= 1;
}

/** Between what is said of a row and its height. */
function verdictContradiction(rows: RowBatch, i: number, height: number): string | null {
  const status = rows.status[i]!;
  const reason = rows.reason[i]!;
  const feasible = rows.feasible[i]!;
  const unmet = rows.unmet[i]!;
  const violation = rows.violation[i]!;
  const name = STATUSES[status]!;
  if (!isEvaluated(status)) {
    if (reason === REASON.none) return `is ${name} without a reason`;
    if (feasible !== 0 || unmet !== 0 || violation !== Number.POSITIVE_INFINITY) {
      return `is ${name} and is judged by limits`;
    }
    return null;
  }
  if (status === STATUS.lifts ? height < 0 : height !== 0) return `${name} at another height`;
  if (status === STATUS.lifts && !LIFTS_WITH.includes(reason)) return `${name} with a reason not to`;
  if ((feasible === 1) !== (unmet === 0)) return 'is feasible and breaks a limit, or neither';
  const least = status === STATUS.rests ? RESTING_EXCESS : 0;
  const fits = (violation === least) === (unmet === 0) && violation >= least;
  return fits ? null : 'breaks its limits by another amount';
}
