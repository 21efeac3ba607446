import type { Study, Varied } from '../../model/study.ts';
import { inputToUnit } from '../../model/units.ts';
import { shortText } from '../../text/clean-text.ts';
import { grouped } from '../../text/grouped.ts';
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
  const { length } = varied.levels;
  const isBetween = varied.kind === 'number' && varied.between !== undefined;
  const ends = `${levelText(varied, 0)} to ${levelText(varied, length - 1)}`;
  const isListed = length <= MOST_LISTED;
  const listed = () => Array.from(varied.levels.keys(), (level) => levelText(varied, level)).join(', ');
  const values = isBetween ? ends : isListed ? listed() : `${ends}, ${grouped(length)} values`;
  return `${inputTitle(varied)} ${values}`;
}

function levelText(varied: Varied, level: number): string {
  if (varied.kind === 'choice') return shortText(varied.levels[level]!.label, 32);
  const si = varied.levels[level]!;
  return si === Number.POSITIVE_INFINITY ? 'thick' : numberText(inputToUnit(si, varied.unit));
}
