import { metalBeside } from '../../model/varied-metals.ts';
import type { ThinSample } from '../../survey/thin-sample.ts';
import { shortText } from '../../text/clean-text.ts';
import { grouped } from '../../text/grouped.ts';
import { countText } from '../../text/number-text.ts';
import type { FrontChart } from '../charts/front-chart.ts';
import { cellText, type FrontColumn } from '../front-columns.ts';
import { letterOf } from '../letters.ts';
import type { ShownFront } from '../shown-front.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { figure, section } from './page-frame.ts';

/** Rows that a printed page has room for. */
const PRINTED = 40;
/** Characters of a name; a card has the whole. */
const LONGEST = 24;

/** The front as charts, with one table that holds the numbers of all of them. */
export function frontSection(
  shown: ShownFront,
  charts: readonly FrontChart[],
  columns: readonly FrontColumn[],
): Markup {
  return section('front', HEADINGS.front, [
    html`<p>A design is on the Pareto front (in short: the front) when no other feasible design is at least as good in every objective and better in
one. Moving along it always gives up something to gain something.</p>`,
    ...charts.map((chart) => figure(chart.svg, frontCaption(shown, chart))),
    charts.length > 0
      ? html`<p class="hint">Point at a dot to see its design, click it for all its numbers. From the keyboard: Tab to
the chart, arrow keys along the front, Enter to open.</p>`
      : null,
    shown.of > 0 ? frontTable(shown, columns) : null,
  ]);
}

function frontCaption({ input: { study, survey, front }, of }: ShownFront, chart: FrontChart): string {
  const isByMetal = metalBeside(study.vary, null) !== null;
  const thinned = ({ of, designs }: ThinSample) => of > designs.length;
  const dots = front.count - chart.placeless;
  const outOf = ({ of, designs }: ThinSample) => (of > designs.length ? ` out of ${grouped(of)}` : '');
  const beside = [
    ...(chart.rings > 0
      ? [
          `${countText(chart.rings, 'feasible design')}${outOf(survey.feasibleSample)} as ${isByMetal ? 'open marks in the colours of their metals' : 'rings'}`,
        ]
      : []),
    ...(chart.crosses > 0
      ? [
          `${countText(chart.crosses, 'design')}${outOf(survey.otherSample)} that miss a limit as crosses, a shape a limit`,
        ]
      : []),
  ].join(' and ');
  const sentences = [
    of > front.count
      ? `${dots} of the ${grouped(of)} designs on the front, evenly spread along it.`
      : `All ${countText(dots, 'design')} on the front.`,
    chart.placeless > 0 ? `${countText(chart.placeless, 'design')} without a finite value has no place.` : '',
    beside === '' ? '' : `Beside them ${beside}.`,
    chart.outside > 0 ? `${grouped(chart.outside)} more crosses lie beyond the edges.` : '',
    thinned(survey.feasibleSample) || thinned(survey.otherSample)
      ? 'Thinned for display by a fixed rule; the tables hold every design.'
      : '',
  ];
  return sentences.filter((sentence) => sentence !== '').join(' ');
}

function frontTable({ input, of }: ShownFront, columns: readonly FrontColumn[]): Markup {
  const { front, chosen } = input;
  const { count } = front;
  const caption =
    of > count
      ? `${countText(count, 'design')} of the front, evenly spread; front.csv holds all ${grouped(of)}.`
      : `The front: ${countText(count, 'design')}, best in the first objective first.`;
  const isText = ({ cells }: FrontColumn) => typeof cells[0] === 'string';
  const head = (label: string, unit: string, text: boolean) =>
    html`<th scope="col"${text ? html` class="text"` : null}><button type="button">${label}</button>${unit === '' ? null : html`<span class="unit">${unit}</span>`}</th>`;
  const cell = (column: FrontColumn, row: number) => {
    const value = column.cells[row]!;
    return typeof value === 'string'
      ? html`<td class="text">${shortText(cellText(value), LONGEST)}</td>`
      : html`<td data-value="${sortValue(value)}">${cellText(value)}</td>`;
  };
  const line = (_: unknown, row: number) => {
    const design = front.designs[row]!;
    const letter = letterOf(chosen, row);
    return html`<tr id="design-${design}"${row >= PRINTED ? html` class="more"` : null}><th scope="row" data-value="${design}"><a href="#design-${design}">${design}</a>${letter === null ? null : html` <span class="letter">${letter}</span>`}</th>${columns.map((column) => cell(column, row))}</tr>
`;
  };
  return html`<div class="scroll tall" tabindex="0" role="region" aria-label="Table of the front"><table class="sortable"><caption>${caption}</caption>
<thead><tr>${head('design', '', false)}${columns.map((column) => head(column.label, column.unit.symbol, isText(column)))}</tr></thead>
<tbody>
${Array.from({ length: count }, line)}</tbody></table></div>
${count > PRINTED ? html`<p class="print-only small">Printed: the first ${PRINTED} rows; front.csv holds all ${grouped(of)}.</p>` : null}
`;
}

/** Seven digits sort as well as all of them. */
function sortValue(value: number): string {
  return Number.isNaN(value) ? '' : String(Number(value.toPrecision(7)));
}
