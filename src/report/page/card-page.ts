import { CAUTIONS_REMINDER, type Caution } from '../../model/cautions.ts';
import { UNITS } from '../../model/units.ts';
import { measureText, typeset } from '../../text/number-text.ts';
import type { CardInput, CardSection, CardTable } from '../card-input.ts';
import { html, Markup } from '../text/html.ts';
import { pageFrame } from './page-frame.ts';

/** The bench card as a page: no script, nothing to click, made to be printed and hung up. */
export function cardPage(input: CardInput, drawing: string | null, chart: string | null): string {
  const { study, design, sections, wide, table, cautions, version } = input;
  return pageFrame(
    `Bench card of design ${design}: ${study.title}`,
    [
      html`<main class="bench-card"><header><p class="kind">Bench card of design ${design}</p><h1>${study.title}</h1></header>
${drawing === null ? null : html`<figure>${new Markup(drawing)}</figure>`}
<div class="beside">${sections.map(sectionMarkup)}</div>
${wide === null ? null : sectionMarkup({ ...wide, rows: wide.rows.map(([topic, ...words]) => [topic!, ...words.map(typeset)]) })}
${table === null ? null : tableMarkup(table, chart)}
<section><h2>Cautions</h2><ul class="beside">${cautions.map((caution) => html`<li>${cautionText(caution)}</li>`)}</ul><p class="small">${CAUTIONS_REMINDER}</p></section>
<p class="small">Computed, not measured. Eddylift ${version}; study ${study.hash.slice(0, 16)}.</p></main>`,
    ],
    '',
  );
}

function sectionMarkup({ heading, rows }: CardSection): Markup {
  return html`<section><h2>${heading}</h2><table><tbody>${rows.map(
    ([topic, ...words]) =>
      html`<tr><th scope="row" class="text">${topic ?? ''}</th>${words.map((word) => html`<td class="text">${word}</td>`)}</tr>`,
  )}</tbody></table></section>
`;
}

/** The table of currents, with the lift curve beside it. */
function tableMarkup({ heading, columns }: CardTable, chart: string | null): Markup {
  const rows = columns[0]?.cells ?? [];
  return html`<section><h2>${heading}</h2><div class="table-and-chart"><div class="scroll" tabindex="0" role="region" aria-label="${heading}"><table><thead><tr>${columns.map(({ label, unit }) => html`<th scope="col">${label}<span class="unit">${unit}</span></th>`)}</tr></thead><tbody>${rows.map(
    (_, row) => html`<tr>${columns.map(({ cells }) => html`<td>${cells[row]!}</td>`)}</tr>`,
  )}</tbody></table></div>${chart === null ? null : html`<figure>${new Markup(chart)}<figcaption>The ring is its own drive.</figcaption></figure>`}</div></section>
`;
}

/** What was found, with its number where it is more than a yes or no, and what to do. */
function cautionText({ rule, value, unit, advice }: Caution): Markup {
  const isMeasured = unit !== UNITS.one || (value !== 0 && value !== 1);
  const number = isMeasured ? ` (${measureText(value, unit)})` : '';
  return html`<b>${rule}${number}.</b> ${advice}`;
}
