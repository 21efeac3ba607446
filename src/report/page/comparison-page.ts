import { headText, NOTHING, numberText, typeset } from '../../text/number-text.ts';
import type { CardTable } from '../card-input.ts';
import { COVERAGE } from '../charts/measured-chart.ts';
import type { ComparedQuantity, ComparisonFit, ComparisonInput } from '../comparison-input.ts';
import { html, type Markup } from '../text/html.ts';
import { dataTable, figure, pageFrame, section } from './page-frame.ts';

/** A comparison of measured points with the model as a page: no script, nothing to click but folded tables. */
export function comparisonPage(input: ComparisonInput, charts: readonly string[]): string {
  const { study, design, measured, words, quantities, standing, fit, unanswered, version } = input;
  return pageFrame(
    `Measured against the model: ${study.title}`,
    [
      html`<header><p class="kind">Measured against the model: ${measured}, design ${design}</p><h1>${study.title}</h1></header>
<main>
`,
      section('words', 'What was found', [
        html`<ul class="answer">${words.map((sentence) => html`<li>${sentence}</li>`)}</ul>
`,
        tableMarkup(standing),
        unanswered === '' ? null : html`<p>The model has no answer to ${unanswered}.</p>`,
      ]),
      fit === null ? null : fitSection(fit),
      quantities.length === 0
        ? null
        : section(
            'charts',
            'Point by point',
            quantities.map((quantity, q) => quantityFigure(quantity, charts[q]!)),
          ),
      html`</main>
<footer><p class="small">Eddylift ${version}; study ${study.hash.slice(0, 16)}.</p></footer>`,
    ],
    '',
  );
}

function fitSection({ inputs, trust, standing }: ComparisonFit): Markup {
  const heads = ['input', 'fitted', 'standard error', 'before'];
  return section('fit', inputs.heading, [
    html`<div class="scroll fitted" tabindex="0" role="region" aria-label="Table of fitted inputs"><table><thead><tr>${heads.map((head) => html`<th scope="col" class="text">${head}</th>`)}</tr></thead><tbody>
${inputs.rows.map(([path, ...cells]) => html`<tr><th scope="row" class="text">${path!}</th>${cells.map((cell) => html`<td class="text">${typeset(cell)}</td>`)}</tr>\n`)}</tbody></table></div>
<h3>How far to trust the fit</h3>
<ul class="answer">${trust.map((sentence) => html`<li>${sentence}</li>`)}</ul>
`,
    tableMarkup(standing),
  ]);
}

function tableMarkup({ heading, columns }: CardTable): Markup {
  const rows = columns[0]?.cells ?? [];
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${heading}"><table><caption>${heading}</caption><thead><tr>${columns.map(({ label, unit }, i) => html`<th scope="col"${i === 0 ? html` class="text"` : null}>${label}${unit === '' ? null : html`<span class="unit">${unit}</span>`}</th>`)}</tr></thead><tbody>
${rows.map((_, row) => html`<tr>${columns.map(({ cells }, i) => (i === 0 ? html`<th scope="row" class="text">${cells[row]!}</th>` : html`<td>${typeset(cells[row]!)}</td>`))}</tr>\n`)}</tbody></table></div>
`;
}

function quantityFigure(quantity: ComparedQuantity, svg: string): Markup {
  const { label, unit, across, points } = quantity;
  const uncertain = points.some(({ uncertainty }) => !Number.isNaN(uncertainty));
  const name = label.charAt(0).toUpperCase() + label.slice(1);
  return html`<h3>${name}</h3>
${figure(
  svg,
  uncertain
    ? `Bars: ${COVERAGE} standard uncertainties to each side. On the right they stand about zero: what lies beyond its bar is not explained by them.`
    : 'The points state no uncertainties.',
  dataTable(
    `Numbers of this chart: ${label}`,
    [across, ...['measured', 'uncertainty', 'model', 'fitted model'].map((head) => headText(head, unit))],
    points.map(({ at, measured, uncertainty, model, fitted }) => [
      numberText(at),
      ...[measured, uncertainty, model, fitted].map((value) =>
        Number.isNaN(value) ? NOTHING : numberText(value),
      ),
    ]),
  ),
)}`;
}
