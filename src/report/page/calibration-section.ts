import { INPUTS } from '../../model/inputs.ts';
import type { FittedInputs } from '../../model/study.ts';
import { UNITS, type Unit } from '../../model/units.ts';
import { measureText, NOTHING, withUnit } from '../../text/number-text.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { section } from './page-frame.ts';

/** What the study takes from the bench instead of the drawing; null where it takes nothing. */
export function calibrationSection({ study }: Pick<ReportInput, 'study'>): Markup | null {
  const { fitted } = study;
  if (fitted === undefined || fitted.inputs.length === 0) return null;
  const heads = ['input', 'drawing or catalogue', 'fitted', 'standard error', 'difference'];
  return section('calibration', HEADINGS.calibration, [
    html`<p>${originText(fitted)} Every design above was computed with the fitted values.</p>
<div class="scroll fitted" tabindex="0" role="region" aria-label="Table of fitted inputs"><table><thead><tr>${heads.map((head, i) => html`<th scope="col"${i === 0 ? html` class="text"` : null}>${head}</th>`)}</tr></thead><tbody>
${fitted.inputs.map(fittedRow)}</tbody></table></div>`,
  ]);
}

function originText({ file, measured, inputs }: FittedInputs): string {
  const these = inputs.length === 1 ? 'This input was' : 'These inputs were';
  const to = measured === null ? 'fitted to measured points' : `fitted to the measured points of ${measured}`;
  return `${these} ${to}${file === null ? '' : `, as ${file} keeps ${inputs.length === 1 ? 'it' : 'them'}`}.`;
}

function fittedRow({ path, slot, value, error, drawn }: FittedInputs['inputs'][number]): Markup {
  const { unit } = INPUTS[slot]!;
  return html`<tr><th scope="row" class="text">${path}</th><td>${measureText(drawn, unit)}</td><td>${measureText(value, unit)}</td><td>${errorText(error, unit)}</td><td>${differenceText(value, drawn, error, unit)}</td></tr>
`;
}

/** Two digits: an error is itself known to a fifth or so. */
function errorText(error: number, unit: Unit): string {
  if (Number.isNaN(error)) return 'not stated';
  return `± ${withUnit(Number((error * unit.scale).toPrecision(2)), differenceUnit(unit))}`;
}

/** In percent of what was drawn and in standard errors. */
function differenceText(value: number, drawn: number, error: number, unit: Unit): string {
  if (Number.isNaN(drawn)) return NOTHING;
  const by = value - drawn;
  const percent =
    unit === UNITS.degC || drawn === 0
      ? withUnit(Number((by * unit.scale).toPrecision(2)), differenceUnit(unit))
      : `${Number(((100 * by) / drawn).toPrecision(2))} %`;
  const signed = by > 0 ? `+${percent}` : percent.replace('-', '−');
  return Number.isNaN(error) ? signed : `${signed}, ${Math.abs(by / error).toFixed(1)} standard errors`;
}

/** Differences of temperatures are in kelvin. */
function differenceUnit(unit: Unit): Unit {
  return unit === UNITS.degC ? UNITS.K : unit;
}
