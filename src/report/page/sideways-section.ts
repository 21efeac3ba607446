import { UNITS } from '../../model/units.ts';
import { numberText } from '../../text/number-text.ts';
import { letterOf } from '../letters.ts';
import type { ChosenDesign, ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** Every how many points of the curve the table lists one. */
const STEP = 3;

/** What happens beside the axis: in words, and the force as a curve where there is one. Null where nothing is known. */
export function sidewaysSection(
  input: ReportInput,
  drawn: readonly ChosenDesign[],
  svg: string | null,
): Markup | null {
  const described = input.chosen.filter(({ sideways }) => sideways && sideways.words.length > 0);
  if (described.length === 0) return null;
  const name = ({ row }: ChosenDesign) =>
    `${letterOf(input.chosen, row) ?? ''} (design ${input.front.designs[row]})`;
  return section('sideways', HEADINGS.sideways, [
    html`<ul>${described.map((design) => html`<li>${name(design)}: ${design.sideways!.words.join(', ')}.</li>`)}</ul>`,
    svg === null
      ? null
      : figure(
          svg,
          [
            'Mean force at the operating gap. Above the line it drives the floating part outward, below it back to the middle; the ring is where the sentences above look at it.',
          ],
          dataTable(
            'Numbers of this chart: outward force over weight',
            ['design', 'distance from the axis (mm)', 'outward force over weight'],
            drawn.flatMap((design) =>
              design
                .sideways!.curve.filter((_, i) => i % STEP === 0)
                .map(({ shift, overWeight }) => [
                  name(design),
                  numberText(shift * UNITS.mm.scale),
                  numberText(overWeight),
                ]),
            ),
          ),
        ),
  ]);
}

/** Designs with a curve. */
export function pushedDesigns({ chosen }: ReportInput): readonly ChosenDesign[] {
  return chosen.filter(({ sideways }) => sideways && sideways.curve.length > 0);
}
