import type { LimitEffect } from '../../survey/limit-tally.ts';
import { grouped } from '../../text/grouped.ts';
import { countText, measureText, NOTHING, withUnit } from '../../text/number-text.ts';
import { plainLabel } from '../charts/axis-title.ts';
import { type Margin, nearestOnFront } from '../limit-margins.ts';
import type { ReportInput } from '../report-input.ts';
import { type Content, html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { section } from './page-frame.ts';

const STATUS_WORDS = {
  lifts: 'float',
  rests: 'rest on the plate',
  clamped: 'are clamped',
  impossible: 'cannot be built',
  failed: 'could not be evaluated',
} as const;

/** Which limits bind, how many designs each shuts out, and what else becomes of designs. */
export function limitsSection(input: ReportInput): Markup {
  const { survey } = input;
  return section('limits', HEADINGS.limits, [
    survey.limits.length > 0 ? limitTable(input) : html`<p>The study sets no limits.</p>`,
    html`<h3>What becomes of the designs</h3>
<ul>${survey.fates.map(({ status, reason, count }) => html`<li>${grouped(count)} ${STATUS_WORDS[status]}${reason === '' ? null : `: ${reason}`}</li>`)}</ul>`,
  ]);
}

function limitTable(input: ReportInput): Markup {
  const margins = nearestOnFront(input);
  const heads = ['limit', 'shuts out', 'alone', 'binds', 'nearest on the front'];
  return html`<p>A limit binds when it alone keeps designs off the front: without it they would be on it.</p>
<div class="scroll limits" tabindex="0" role="region" aria-label="Table of limits"><table><thead><tr>${heads.map((head, i) => html`<th scope="col"${i === 0 || i > 2 ? html` class="text"` : null}>${head}</th>`)}</tr></thead><tbody>
${input.survey.limits.map((limit, i) => limitRow(input, limit, margins[i] ?? null))}</tbody></table></div>
`;
}

function limitRow(input: ReportInput, limit: LimitEffect, margin: Margin | null): Markup {
  return html`<tr><th scope="row" class="text">${limit.text}</th><td>${grouped(limit.missed)}</td><td>${grouped(limit.alone)}</td><td class="text">${bindingText(input, limit)}</td><td class="text">${marginText(input, margin)}</td></tr>
`;
}

function bindingText({ study, objectiveLabels }: ReportInput, { kept, best }: LimitEffect): string {
  if (kept === 0) return 'no';
  const reached = study.objectives.map(
    ({ unit }, o) => `${plainLabel(objectiveLabels[o]!)} ${measureText(best[o]!, unit)}`,
  );
  return `yes: without it ${countText(kept, 'design')} more, reaching ${reached.join(' or ')}`;
}

function marginText({ front }: ReportInput, margin: Margin | null): Content {
  if (margin === null) return NOTHING;
  const design = front.designs[margin.row]!;
  return html`<a href="#design-${design}">design ${design}</a>, ${distanceText(margin)}`;
}

/** Of a bound of 0 there is no per cent. */
function distanceText({ fraction, apart, unit }: Margin): string {
  if (apart === 0) return 'at it';
  if (!Number.isNaN(fraction)) return `${fraction < 1e-3 ? 'under 0.1' : (100 * fraction).toFixed(1)} % away`;
  // a difference of temperatures is one in degrees, too
  return unit === null ? 'not at it' : `${withUnit(apart * unit.scale, unit)} away`;
}
