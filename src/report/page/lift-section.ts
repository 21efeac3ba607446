import { floating } from '../charts/lift-chart.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { numberText } from '../text/number-text.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** Currents that the table of the curves lists. */
const LISTED = 16;
const MM = 1e3;

/** Height against current of the chosen designs. */
export function liftSection(input: ReportInput, svg: string): Markup {
  const designs = floating(input);
  const resting = input.chosen.filter((design) => design.lift.length > 0 && !designs.includes(design));
  const currents = designs[0]!.lift.filter((_, i, all) => i % Math.ceil(all.length / LISTED) === 0);
  const nameOf = (row: number) => `${letterOf(input.chosen, row) ?? ''} (design ${input.front.designs[row]})`;
  const heightAt = (lift: (typeof designs)[number]['lift'], current: number) =>
    lift.find((point) => point.current === current)?.height ?? Number.NaN;
  return section('lift', 'How high at which current', [
    figure(
      svg,
      [
        'Each curve starts at lift-off; the ring is the current at which the study runs the design.',
        ...resting.map(({ row }) => ` ${nameOf(row)} rests at every current shown.`),
      ],
      dataTable(
        'Numbers of this chart: height above rest (mm)',
        ['current (A rms)', ...designs.map(({ row }) => nameOf(row))],
        currents.map(({ current }) => [
          numberText(current),
          ...designs.map(({ lift }) => numberText(heightAt(lift, current) * MM)),
        ]),
      ),
    ),
    html`<p class="small">Raised slowly from zero, the winding at the temperature that the study gives.</p>`,
  ]);
}
