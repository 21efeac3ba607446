import type { Study, Varied } from '../../model/study.ts';
import { inputToUnit } from '../../model/units.ts';
import { shortText } from '../../text/clean-text.ts';
import { numberText } from '../../text/number-text.ts';
import { inputTitle } from '../charts/effects-chart.ts';
import { html, type Markup } from '../text/html.ts';

/** More values than this are shown as a range. */
const MOST_LISTED = 6;

/** What the study is about, in its own expressions: wanted, within which limits, over which values. */
export function question({ study }: { readonly study: Study }): Markup {
  const { objectives, limits, vary } = study;
  const facts: [string, string][] = [
    [
      'Wanted:',
      objectives.map(({ sense, text }) => `${sense} ${text}`).join(', ') || 'no objective: tables alone',
    ],
    ['Within:', limits.length === 0 ? 'no limits' : limits.map(({ text }) => text).join(', ')],
    ['Varied:', vary.map(variedText).join('; ') || 'nothing: one design'],
  ];
  return html`<dl class="question">${facts.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`;
}

function variedText(varied: Varied): string {
  const texts =
    varied.kind === 'choice'
      ? varied.levels.map(({ label }) => shortText(label, 32))
      : varied.levels.map((si) =>
          si === Number.POSITIVE_INFINITY ? 'thick' : numberText(inputToUnit(si, varied.unit)),
        );
  const isListed = texts.length <= MOST_LISTED;
  const isBetween = varied.kind === 'number' && varied.between !== undefined;
  const ends = `${texts[0]} to ${texts.at(-1)}`;
  const values = isBetween ? ends : isListed ? texts.join(', ') : `${ends}, ${texts.length} values`;
  return `${inputTitle(varied)} ${values}`;
}
