import { toUnit, UNITS } from '../../model/units.ts';
import { numberText } from '../../text/number-text.ts';
import { shownUntil, sinks } from '../charts/warm-chart.ts';
import { letterOf } from '../letters.ts';
import type { ChosenDesign, DesignWarming, ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** The chosen designs set cold and left alone: temperatures and height over time, and what happens on the way. */
export function warmingSection(input: ReportInput, curves: ReadonlyMap<number, string>): Markup | null {
  const warming = input.chosen.filter(({ row }) => curves.has(row));
  if (warming.length === 0) return null;
  return section('warming', HEADINGS.warming, [
    html`<p>Set cold at its own drive and left alone: the winding warms, and where the supply voltage is held the current falls and the coil sinks.</p>`,
    ...warming.map((design) => oneDesign(input, design, curves.get(design.row)!)),
    html`<p class="small">Convection is known to 10 or 20 %, how well a loose winding conducts to a factor of 1.5: take temperatures and times as good to a fifth.</p>`,
  ]);
}

function oneDesign(input: ReportInput, { row, warming }: ChosenDesign, curve: string): Markup {
  const design = input.front.designs[row]!;
  const { held, rows, floats } = warming!;
  const below = sinks(warming!) ? '; below, the height' : floats ? '; the height stays' : '';
  const end = warming!.moments.at(-1)!.time;
  const faded = warming!.events.some(({ label }) => label === null)
    ? ' Faded beyond the thermal class, which the winding does not stand for long.'
    : '';
  const cut = shownUntil(warming!) < end ? ' The table goes on to the end.' : '';
  return html`<article><h3><span class="letter">${letterOf(input.chosen, row) ?? ''}</span> Design ${design}: ${held} left alone</h3>
${figure(curve, `Temperatures over time${below}.${faded}${cut}`, numbers(design, warming!))}
<dl class="events">${rows.map(([topic, words]) => html`<div><dt>${topic}</dt><dd>${words}</dd></div>`)}</dl></article>
`;
}

/** Rows of the table behind the curves. */
const LISTED = 30;

function numbers(design: number, { moments, floats }: DesignWarming): Markup {
  const every = Math.max(1, Math.ceil(moments.length / LISTED));
  const celsius = (si: number) => (Number.isNaN(si) ? '' : numberText(toUnit(si, UNITS.degC)));
  const rows = moments
    .filter((_, i) => i % every === 0 || i === moments.length - 1)
    .map(({ time, current, height, mean, hottest, plate }) => [
      numberText(time / 60),
      numberText(current),
      ...(floats ? [numberText(toUnit(height, UNITS.mm))] : []),
      celsius(mean),
      celsius(hottest),
      celsius(plate),
    ]);
  return dataTable(
    `Numbers of this chart: design ${design} while it warms`,
    [
      'time (min)',
      'current (A)',
      ...(floats ? ['height (mm)'] : []),
      'winding, mean (°C)',
      'hottest place (°C)',
      'plate (°C)',
    ],
    rows,
  );
}
