import { numberText } from '../../text/number-text.ts';
import { letterOf } from '../letters.ts';
import type { ChosenDesign, DesignMotion, ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, picture, section } from './page-frame.ts';

export interface MotionPictures {
  readonly moving: string;
  readonly curve: string;
}

/** The chosen designs switched on at once: a picture that moves, height over time, and in words. */
export function motionSection(
  input: ReportInput,
  pictures: ReadonlyMap<number, MotionPictures>,
): Markup | null {
  const moving = input.chosen.filter(({ row }) => pictures.has(row));
  if (moving.length === 0) return null;
  return section('motion', HEADINGS.motion, [
    html`<p>Switched on at once at the voltage of its drive, at the phase of the mains where it draws most. <span class="screen-only">Click a picture to see three seconds at their own speed.</span></p>`,
    ...moving.map((design) => oneDesign(input, design, pictures.get(design.row)!)),
    html`<p class="small">Computed with the temperature held and without other friction than guides.drag; bodies are rigid and stay level. Raise the drive from zero: this is what happens when it is not.</p>`,
  ]);
}

function oneDesign(
  input: ReportInput,
  { row, motion }: ChosenDesign,
  { moving, curve }: MotionPictures,
): Markup {
  const design = input.front.designs[row]!;
  return html`<article><h3><span class="letter">${letterOf(input.chosen, row) ?? ''}</span> Design ${design}: ${motion!.drive}</h3>
<figure class="player">${picture(moving)}<figcaption>To the scale of its cross-section.</figcaption></figure>
${figure(curve, 'Height over time; dashed: where it comes to float.', heights(design, motion!))}
<dl>${motion!.rows.map(([topic, words]) => html`<div><dt>${topic}</dt><dd>${words}</dd></div>`)}</dl></article>
`;
}

/** Rows of the table behind the curve. */
const LISTED = 30;

function heights(design: number, { time, height }: DesignMotion): Markup {
  const every = Math.max(1, Math.round(time.length / LISTED));
  const rows = time.flatMap((at, i) =>
    i % every === 0 ? [[numberText(at), numberText(height[i]! * 1e3)]] : [],
  );
  return dataTable(
    `Numbers of this chart: height of design ${design} over time`,
    ['time (s)', 'height (mm)'],
    rows,
  );
}
