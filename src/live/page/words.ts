import { byHazard, type Judgement, raisedOf, unjudgedOf } from '../../model/cautions/judge.ts';
import { Q } from '../../model/quantities.ts';
import { REASONS, STATUS, STATUSES } from '../../model/status.ts';
import { UNITS } from '../../model/units.ts';
import { html } from '../../report/text/html.ts';
import { cautionNumbers, notJudgedWords } from '../../text/caution-words.ts';
import { formatDuration } from '../../text/duration.ts';
import { measureText } from '../../text/number-text.ts';
import type { LimitStanding } from '../../words/limit-standing.ts';
import type { RigView } from '../compute-view.ts';

/** What the rig does, in a sentence. */
export function stateWords({ status, reason, results }: RigView): string {
  const why = REASONS[reason]!.text;
  if (status === STATUS.lifts) return `Floats ${measureText(results[Q.height]!, UNITS.mm)} high`;
  const name = STATUSES[status]!;
  return `${name[0]!.toUpperCase()}${name.slice(1)}${why === '' ? '' : `: ${why}`}`;
}

/** The figures that everybody needs. */
export function readingsMarkup({ results }: RigView): string {
  const time = results[Q.coil_on_time]!;
  const endless = time === Number.POSITIVE_INFINITY;
  const readings: [string, string][] = [
    ['height', measureText(results[Q.height]!, UNITS.mm)],
    ['current', measureText(results[Q.current]!, UNITS.A)],
    ['supply voltage', measureText(results[Q.supply_voltage]!, UNITS.V)],
    ['power', measureText(results[Q.power]!, UNITS.W)],
    ['may stay on', Number.isNaN(time) ? '–' : endless ? 'no limit' : formatDuration(time)],
  ];
  return html`${readings.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}`.source;
}

export function limitsMarkup(limits: readonly LimitStanding[]): string {
  if (limits.length === 0) return html`<p class="small">None that can be judged.</p>`.source;
  return html`<table><thead><tr><th scope="col" class="text">limit</th><th scope="col" class="text">met</th><th scope="col">now</th><th scope="col">margin</th></tr></thead><tbody>${limits.map(
    ({ text, met, value, rest }) =>
      html`<tr class="${met ? 'met' : 'unmet'}"><th scope="row" class="text">${text}</th><td class="text">${met ? 'yes' : 'no'}</td><td>${value ?? ''}</td><td>${rest}</td></tr>`,
  )}</tbody></table>`.source;
}

/** The worst hazard first. */
export function cautionsMarkup(judgements: readonly Judgement[], isWhole: boolean): string {
  const groups = byHazard(raisedOf(judgements)).map(
    ({ label, judgements: own }) =>
      html`<h3>${label}</h3><ul>${own.map((judgement) => {
        const numbers = cautionNumbers(judgement, measureText);
        const { rule, advice, source } = judgement.rule;
        return html`<li><b>${rule}${numbers === '' ? '' : ` (${numbers})`}.</b> ${advice} <span class="source">${source}.</span></li>`;
      })}</ul>`,
  );
  const rest = isWhole
    ? unjudgedOf(judgements).map((each) => html`<p class="unjudged">${notJudgedWords(each)}</p>`)
    : html`<p class="unjudged">Others are judged when the controls rest.</p>`;
  return html`${groups}${rest}`.source;
}
