import { CAUTIONS_REMINDER, type Caution } from '../model/cautions.ts';
import { UNITS } from '../model/units.ts';
import { listing, wrap } from '../text/listing.ts';
import { measure } from '../text/significant.ts';
import { layOut } from '../text/text-columns.ts';
import type { BenchCard } from './bench-card.ts';
import { curveColumns, curveTitle } from './card-curve.ts';
import {
  limitRows,
  operatingTopics,
  SPREAD_TITLE,
  spreadRows,
  windingTitle,
  windingTopics,
} from './card-topics.ts';

/** A card for people, at most `width` characters wide. */
export function cardText(card: BenchCard, width: number): string {
  const { study, design, status, reason, windings, limits, cautions } = card;
  const sections: (readonly [title: string, body: string])[] = [['The rig', listing(card.rig, width)]];
  if (card.curve.length === 0) sections.push([`No answer: ${status}`, listing([[reason]], width)]);
  else {
    sections.push(['At its own drive', listing(operatingTopics(card), width)]);
    const table = layOut(curveColumns(card)).map((line) => `  ${line}\n`);
    sections.push([curveTitle(card), table.join('')]);
  }
  windings.forEach((guide, w) => {
    sections.push([windingTitle(card, w), listing(windingTopics(card, guide), width)]);
  });
  if (limits.length > 0) sections.push(['Limits of the study', listing(limitRows(limits), width)]);
  const spread = spreadRows(card);
  if (spread.length > 0) sections.push([SPREAD_TITLE, listing(spread, width)]);
  sections.push(['Cautions', cautionList(cautions, width)]);
  const heading = wrap(`Bench card of design ${design}: ${study.title}`, width).join('\n');
  return [
    `${heading}\n`,
    ...sections.map(([title, body]) => `\n${wrap(title, width).join('\n')}\n${body}`),
  ].join('');
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
