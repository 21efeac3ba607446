import {
  byHazard,
  CAUTIONS_REMINDER,
  type Judgement,
  raisedOf,
  unjudgedOf,
} from '../../model/cautions/judge.ts';
import { cautionNumbers, notJudgedWords } from '../../text/caution-words.ts';
import { measureText, typeset } from '../../text/number-text.ts';
import type { CardInput, CardSection, CardTable } from '../card-input.ts';
import { html, type Markup } from '../text/html.ts';
import { pageFrame, picture } from './page-frame.ts';

/** Pictures of a card, as SVG; null where there is nothing to show. */
export interface CardPictures {
  readonly drawing: string | null;
  readonly lift: string | null;
  readonly motion: string | null;
  readonly warming: string | null;
}

/** The bench card as a page: no script, nothing to click, made to be printed and hung up. */
export function cardPage(input: CardInput, pictures: CardPictures): string {
  const { study, name, sections, wide, last, table, cautions, version } = input;
  const { drawing, lift } = pictures;
  return pageFrame(
    `Bench card of ${name}: ${study.title}`,
    [
      html`<main class="bench-card"><header><p class="kind">Bench card of ${name}</p><h1>${study.title}</h1>${overleaf(cautions)}</header>
${drawing === null ? null : html`<figure>${picture(drawing)}</figure>`}
<div class="beside">${sections.map(sectionMarkup)}</div>
${wide === null ? null : wideMarkup(wide)}
${table === null ? null : tableMarkup(table, lift)}
${cautionsMarkup(cautions)}
${courses(input, pictures)}
${last === null ? null : wideMarkup(last)}
<p class="small">Computed, not measured. Eddylift ${version}; study ${study.hash.slice(0, 16)}.</p></main>`,
    ],
    '',
  );
}

function wideMarkup({ heading, rows }: CardSection): Markup {
  return sectionMarkup({
    heading,
    rows: rows.map(([topic, ...words]) => [topic ?? '', ...words.map(typeset)]),
  });
}

function sectionMarkup({ heading, rows }: CardSection): Markup {
  return html`<section><h2>${heading}</h2><table><tbody>${rows.map(
    ([topic, ...words]) =>
      html`<tr><th scope="row" class="text">${topic ?? ''}</th>${words.map((word) => html`<td class="text">${word}</td>`)}</tr>`,
  )}</tbody></table></section>
`;
}

const CHART_MARKS =
  'In the chart the ring is its own drive; below the axis, where it chatters before lift-off; a bar ends what the supply gives.';

/** The table of currents, with the lift curve beside it. */
function tableMarkup({ heading, columns }: CardTable, chart: string | null): Markup {
  const rows = columns[0]?.cells ?? [];
  return html`<section><h2>${heading}</h2><div class="table-and-chart"><div class="scroll" tabindex="0" role="region" aria-label="${heading}"><table><thead><tr>${columns.map(({ label, unit }) => html`<th scope="col">${label}<span class="unit">${unit}</span></th>`)}</tr></thead><tbody>${rows.map(
    (_, row) => html`<tr>${columns.map(({ cells }) => html`<td>${cells[row]!}</td>`)}</tr>`,
  )}</tbody></table></div>${chart === null ? null : html`<figure>${picture(chart)}</figure>`}</div>${chart === null ? null : html`<p class="small">${CHART_MARKS}</p>`}</section>
`;
}

/** How it goes on in time, on the back: switched on at once, and left alone. */
function courses({ motion, warming, cautions }: CardInput, pictures: CardPictures): Markup | null {
  const parts = [
    motion && pictures.motion && course(pictures.motion, `Height over time: ${motion.drive}.`),
    warming && pictures.warming && course(pictures.warming, `Set cold and left alone, ${warming.held} held.`),
  ].filter((part) => part !== null);
  return parts.length === 0
    ? null
    : html`<section class="courses${raisedOf(cautions).length > MOST_BESIDE ? ' screen-only' : ''}"><h2>In time</h2><div class="side-by-side">${parts}</div></section>`;
}

/** With more cautions than these the back of the sheet is full. */
const MOST_BESIDE = 7;

function course(svg: string, caption: string): Markup {
  return html`<figure>${picture(svg)}<figcaption>${caption}</figcaption></figure>`;
}

/** On paper the cautions stand on the back. */
function overleaf(cautions: readonly Judgement[]): Markup {
  const hazards = byHazard(raisedOf(cautions)).map(({ label }) => label);
  const which = hazards.length === 0 ? '' : `: ${hazards.join(', ')}`;
  return html`<p class="overleaf print-only"><b>Read the cautions overleaf before you switch on${which}.</b></p>`;
}

/** The worst hazard first; then what could not be judged. */
function cautionsMarkup(cautions: readonly Judgement[]): Markup {
  const groups = byHazard(raisedOf(cautions));
  const unjudged = unjudgedOf(cautions);
  return html`<section class="card-cautions"><h2>Cautions</h2><div class="beside">${groups.map(
    ({ label, judgements }) => html`<h3>${label}</h3><ul>${judgements.map(cautionMarkup)}</ul>
`,
  )}${unjudged.map((each) => html`<p class="unjudged">${notJudgedWords(each)}</p>`)}</div><p class="small">${CAUTIONS_REMINDER}</p></section>
`;
}

/** What was found, with its number where it is more than a yes or no, what to do, and the source. */
function cautionMarkup(judgement: Judgement): Markup {
  const { rule, advice, source } = judgement.rule;
  const numbers = cautionNumbers(judgement, measureText);
  return html`<li><b>${rule}${numbers === '' ? '' : ` (${numbers})`}.</b> ${advice} <span class="source">${source}.</span></li>`;
}
