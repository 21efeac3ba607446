import { CAUTIONS_REMINDER, type Caution } from '../model/cautions.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import { STATUSES } from '../model/status.ts';
import { toUnit, UNITS } from '../model/units.ts';
import type { DrivenPoint } from '../rig/lift-curve.ts';
import { measure, significant } from '../table/significant.ts';
import { layOut, type TextColumn } from '../table/text-columns.ts';
import type { BenchCard } from './bench-card.ts';
import { limitRows, operatingTopics, sayTime, windingTopics } from './card-topics.ts';
import { listing, wrap } from './listing.ts';

/** A card for people, at most `width` characters wide. */
export function cardText(card: BenchCard, width: number): string {
  const { study, design, status, reason, windings, limits, cautions } = card;
  const sections: (readonly [title: string, body: string])[] = [['The rig', listing(card.rig, width)]];
  if (card.curve.length === 0) sections.push([`No answer: ${status}`, listing([[reason]], width)]);
  else {
    sections.push(['At its own drive', listing(operatingTopics(card), width)]);
    sections.push([curveTitle(card), curveTable(card)]);
  }
  windings.forEach((guide, w) => {
    const title = windings.length === 1 ? 'Winding it' : `Winding ${w + 1} of ${windings.length}`;
    sections.push([title, listing(windingTopics(card, guide), width)]);
  });
  if (limits.length > 0) sections.push(['Limits of the study', listing(limitRows(limits), width)]);
  sections.push(['Cautions', cautionList(cautions, width)]);
  const heading = wrap(`Bench card of design ${design}: ${study.title}`, width).join('\n');
  return [
    `${heading}\n`,
    ...sections.map(([title, body]) => `\n${wrap(title, width).join('\n')}\n${body}`),
  ].join('');
}

function curveTitle({ end, point, slots }: BenchCard): string {
  const winding = Math.round(toUnit(slots[SLOT.coilTemperature]!, UNITS.degC));
  const until =
    end === 'supply limit' ? 'to the supply limit' : `beyond its drive of ${measure(point.current, UNITS.A)}`;
  return `Raising the drive ${until} (losses with the coil at ${winding} °C)`;
}

/** A row a current. */
function curveTable({ curve, slots }: BenchCard): string {
  const floats = slots[SLOT.floats] !== FLOATS.nothing;
  const own = (name: QuantityName, label: string = QUANTITIES[Q[name]]!.label): TextColumn => {
    const { unit, index } = QUANTITIES[Q[name]]!;
    const cells = curve.map(({ results }) => significant(toUnit(results[index]!, unit)));
    return { label, unit: unit.symbol, kind: 'number', cells };
  };
  const isTimed = !Number.isNaN(slots[SLOT.thermalClass]!);
  const columns = [
    own('current'),
    ...(floats ? [stateColumn(curve), own('height')] : []),
    own('supply_voltage', 'voltage'),
    own('coil_loss'),
    own('plate_loss'),
    coilColumn(curve),
    ...(isTimed ? [timeColumn(curve, 'coil_on_time', 'on-time')] : []),
    ...(floats ? [] : [timeColumn(curve, 'load_heating_time', 'load warm')]),
  ].filter(({ cells }) => cells.some((cell) => cell !== '-'));
  return layOut(columns)
    .map((line) => `  ${line}\n`)
    .join('');
}

/** Between chatter and lift-off the peaks of the force already exceed the weight. */
function stateColumn(curve: readonly DrivenPoint[]): TextColumn {
  const cells = curve.map(({ status, current, results }) => {
    if (STATUSES[status] === 'lifts') return 'floats';
    return current > results[Q.buzz_current]! ? 'chatters' : STATUSES[status]!;
  });
  return { label: '', unit: '', kind: 'text', cells };
}

function coilColumn(curve: readonly DrivenPoint[]): TextColumn {
  const cells = curve.map(({ results }) => {
    const steady = results[Q.coil_temperature]!;
    return Number.isNaN(steady) ? 'runs away' : String(Math.round(toUnit(steady, UNITS.degC)));
  });
  return { label: 'coil steady', unit: '°C', kind: 'text', cells };
}

function timeColumn(curve: readonly DrivenPoint[], name: QuantityName, label: string): TextColumn {
  const cells = curve.map(({ results }) => {
    const time = results[Q[name]]!;
    return Number.isNaN(time) ? '-' : sayTime(time);
  });
  return { label, unit: '', kind: 'text', cells };
}

function cautionList(cautions: readonly Caution[], width: number): string {
  const entries = cautions.map((caution) => `- ${sayCaution(caution)}`);
  return [...entries, CAUTIONS_REMINDER]
    .flatMap((entry) =>
      wrap(entry, width - 4).map(
        (line, i) => `${i === 0 || entry === CAUTIONS_REMINDER ? '  ' : '    '}${line}\n`,
      ),
    )
    .join('');
}

/** What was found, with its number where it is more than a yes or no; what to do; who says so. */
function sayCaution({ rule, value, threshold, unit, advice, source }: Caution): string {
  const isMeasured = unit !== UNITS.one || (value !== 0 && value !== 1);
  const numbers = isMeasured ? ` (${measure(value, unit)}; from ${measure(threshold, unit)})` : '';
  return `${rule}${numbers}. ${advice} [${source}]`;
}
