import { raisedOf } from '../model/cautions/judge.ts';
import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import { UNITS, type Unit } from '../model/units.ts';
import { measure } from '../text/significant.ts';
import type { BenchCard, CardChange } from './bench-card.ts';

/** What people look at first when they change a rig, in this order. */
const COMPARED: readonly QuantityName[] = [
  'height',
  'gap',
  'chatter_current',
  'liftoff_current',
  'liftoff_voltage',
  'current',
  'voltage',
  'power',
  'power_factor',
  'coil_loss',
  'plate_loss',
  'coil_temperature',
  'coil_on_time',
  'load_heating_time',
  'coil_mass',
  'wire_length',
  'coil_outer_radius',
  'winding_height',
  'resistance',
  'inductance',
  'natural_frequency',
  'hum_level',
];

/** A smaller change, relatively, is none to a builder. */
const SAME = 5e-4;

export const CHANGE_TITLE = 'What changed';

/** What was, what is, and by how much: inputs first, then quantities, limits and cautions that differ. */
export function changeRows(
  card: BenchCard,
  { before, changes }: CardChange,
): (readonly [what: string, was: string, is: string, by: string])[] {
  const inputs = changes.map(({ path, from, to }) => [path, from, to, ''] as const);
  const status =
    before.status === card.status ? [] : [['state', stateOf(before), stateOf(card), ''] as const];
  const quantities = COMPARED.flatMap((name) => {
    const { index, label, unit } = QUANTITIES[Q[name]]!;
    const [was, is] = [before.point.results[index]!, card.point.results[index]!];
    if (Number.isNaN(was) && Number.isNaN(is)) return [];
    if (was === is || Math.abs(is - was) <= SAME * Math.abs(was)) return [];
    return [[label, measure(was, unit), measure(is, unit), byHowMuch(was, is, unit)] as const];
  });
  const limits = card.limits.flatMap(({ text, met }) => {
    const earlier = before.limits.find((limit) => limit.text === text);
    if (earlier === undefined || earlier.met === met) return [];
    const word = (is: boolean) => (is ? 'met' : 'not met');
    return [[`limit ${text}`, word(earlier.met), word(met), ''] as const];
  });
  const [had, has] = [rulesOf(before), rulesOf(card)];
  const gone = had.filter(({ id }) => !has.some((rule) => rule.id === id));
  const fresh = has.filter(({ id }) => !had.some((rule) => rule.id === id));
  return [
    ...inputs,
    ...status,
    ...quantities,
    ...limits,
    ...gone.map(({ rule }) => ['caution', 'yes', 'no', rule] as const),
    ...fresh.map(({ rule }) => ['caution', 'no', 'yes', rule] as const),
  ];
}

function rulesOf(card: BenchCard) {
  return raisedOf(card.cautions).map(({ rule }) => rule);
}

function stateOf({ status, reason }: BenchCard): string {
  return reason === '' ? status : `${status}: ${reason}`;
}

/** In percent; of a temperature or a level in decibels, and of what was nothing, there is none. */
function byHowMuch(was: number, is: number, unit: Unit): string {
  if (unit.offset !== 0 || unit === UNITS.dBA || was === 0 || !Number.isFinite(was + is)) return '';
  const percent = (100 * (is - was)) / Math.abs(was);
  return `${percent > 0 ? '+' : ''}${Number(percent.toPrecision(2))} %`;
}
