import { withUnit } from '../../text/number-text.ts';
import { cellText, type FrontColumn } from '../front-columns.ts';
import { letterOf } from '../letters.ts';
import type { ChosenDesign, ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { picture, section } from './page-frame.ts';

/** The chosen designs, each drawn to scale with the numbers that a builder needs first. */
export function rigsSection(
  input: ReportInput,
  drawings: ReadonlyMap<number, string>,
  columns: readonly FrontColumn[],
): Markup | null {
  if (input.chosen.length === 0) return null;
  return section('rigs', HEADINGS.rigs, [
    input.study.objectives.length === 0
      ? html`<p>Cut along the axis, to scale.</p>`
      : html`<p>The best design in each objective and the best compromise, cut along the axis, to scale.</p>`,
    ...input.chosen.map((design) => rig(input, design, drawings.get(design.row) ?? '', columns)),
  ]);
}

function rig(
  input: ReportInput,
  { row, why }: ChosenDesign,
  drawing: string,
  columns: readonly FrontColumn[],
): Markup {
  const design = input.front.designs[row]!;
  return html`<article class="rig"><h3><span class="letter">${letterOf(input.chosen, row) ?? ''}</span> Design ${design}: ${why}</h3>
<figure id="rig-${design}">${picture(drawing)}</figure>
<dl>${columns.map(({ label, unit, cells }) => html`<div><dt>${label}</dt><dd>${valueText(cells[row]!, unit)}</dd></div>`)}</dl>
<p class="small screen-only"><a href="#design-${design}">All numbers of design ${design}</a></p></article>
`;
}

function valueText(cell: number | string, unit: { readonly symbol: string }): string {
  return typeof cell === 'number' ? withUnit(cell, unit) : cellText(cell);
}
