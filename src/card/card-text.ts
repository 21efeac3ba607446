import {
  byHazard,
  CAUTIONS_REMINDER,
  type Judgement,
  raisedOf,
  unjudgedOf,
} from '../model/cautions/judge.ts';
import { cautionNumbers, notJudgedWords } from '../text/caution-words.ts';
import { listing, wrap } from '../text/listing.ts';
import { measure } from '../text/significant.ts';
import { layOut } from '../text/text-columns.ts';
import { SENSITIVITY_TITLE } from '../words/sensitivity-words.ts';
import type { BenchCard } from './bench-card.ts';
import { CHANGE_TITLE, changeRows } from './card-change.ts';
import { curveColumns, curveTitle } from './card-curve.ts';
import {
  limitRows,
  operatingTopics,
  SPREAD_TITLE,
  sensitivityRows,
  spreadRows,
  windingTitle,
  windingTopics,
} from './card-topics.ts';

/** A card for people, at most `width` characters wide. */
export function cardText(card: BenchCard, width: number): string {
  const { study, name, status, reason, windings, limits, cautions } = card;
  const sections: (readonly [title: string, body: string])[] = [];
  if (card.change) sections.push([CHANGE_TITLE, listing(changeRows(card, card.change), width)]);
  sections.push(['The rig', listing(card.rig, width)]);
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
  const sensitivities = sensitivityRows(card);
  if (sensitivities.length > 0) sections.push([SENSITIVITY_TITLE, listing(sensitivities, width)]);
  sections.push(['Cautions', cautionList(cautions, width)]);
  const heading = wrap(`Bench card of ${name}: ${study.title}`, width).join('\n');
  return [
    `${heading}\n`,
    ...sections.map(([title, body]) => `\n${wrap(title, width).join('\n')}\n${body}`),
  ].join('');
}

/** The worst hazard first; then what could not be judged. */
function cautionList(cautions: readonly Judgement[], width: number): string {
  const groups = byHazard(raisedOf(cautions)).map(
    ({ label, judgements }) =>
      `  ${label}\n${judgements.map((each) => item(`- ${cautionText(each)}`, width)).join('')}`,
  );
  const unjudged = unjudgedOf(cautions).map((each) => item(notJudgedWords(each), width));
  const reminder = wrap(CAUTIONS_REMINDER, width - 4).map((line) => `  ${line}\n`);
  return [...groups, ...unjudged, ...reminder].join('');
}

function item(text: string, width: number): string {
  return wrap(text, width - 4)
    .map((line, i) => `${i === 0 ? '  ' : '    '}${line}\n`)
    .join('');
}

/** What was found, with its number where it is more than a yes or no; what to do; the source. */
function cautionText(judgement: Judgement): string {
  const { rule, advice, source } = judgement.rule;
  const numbers = cautionNumbers(judgement, measure);
  return `${rule}${numbers === '' ? '' : ` (${numbers})`}. ${advice} [${source}]`;
}
