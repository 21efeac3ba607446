import { INPUTS, SLOT } from '../../model/inputs.ts';
import { numberText } from '../../text/number-text.ts';
import { MOST_CURVES } from '../charts/design-curves.ts';
import { liftBounds } from '../fixed-bounds.ts';
import { letterOf } from '../letters.ts';
import type { ChosenDesign, ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** Currents that the table of the curves lists. */
const LISTED = 16;
const MM = 1e3;

/** Designs whose height follows their current. */
export function floatingDesigns({ chosen }: ReportInput): readonly ChosenDesign[] {
  return chosen.filter(({ lift }) => lift.some(({ height }) => height > 0)).slice(0, MOST_CURVES);
}

/** Height against current of the chosen designs that float, of which there is one at least. */
export function liftSection(input: ReportInput, designs: readonly ChosenDesign[], svg: string): Markup {
  const resting = input.chosen.filter(
    ({ lift }) => lift.length > 0 && lift.every(({ height }) => height === 0),
  );
  const shared = sharedCurrents(designs);
  const currents = shared.filter((_, i) => i % Math.ceil(shared.length / LISTED) === 0);
  const nameOf = (row: number) => `${letterOf(input.chosen, row) ?? ''} (design ${input.front.designs[row]})`;
  const heightAt = ({ lift }: ChosenDesign, current: number) =>
    lift.find((point) => point.current === current)?.height ?? Number.NaN;
  return section('lift', HEADINGS.lift, [
    figure(
      svg,
      [
        'Each curve starts at lift-off; the line below the axis leads there from where the coil chatters: peaks of the force exceed the weight, their mean does not. The ring is the current at which the study runs the design.',
        hasLimits(input) ? ' A bar ends what the supply gives (faded beyond).' : '',
        hasBounds(input) ? ' Dashed: limits of the study.' : '',
        ...resting.map(({ row }) => ` ${nameOf(row)} rests at every current shown.`),
      ],
      dataTable(
        'Numbers of this chart: height above rest (mm)',
        ['current (A rms)', ...designs.map(({ row }) => nameOf(row))],
        currents.map((current) => [
          numberText(current),
          ...designs.map((design) => numberText(heightAt(design, current) * MM)),
        ]),
      ),
    ),
    html`<p class="small">Raised slowly from zero, the winding at the temperature that the study gives.</p>`,
  ]);
}

/** Those that every curve has which reaches so far: each has points of its own besides, at lift-off and at its end. */
function sharedCurrents(designs: readonly ChosenDesign[]): number[] {
  const all = [...new Set(designs.flatMap(({ lift }) => lift.map(({ current }) => current)))];
  return all
    .filter((current) =>
      designs.every(
        ({ lift }) => lift.at(-1)!.current < current || lift.some((point) => point.current === current),
      ),
    )
    .sort((a, b) => a - b);
}

function hasBounds({ study }: ReportInput): boolean {
  const { current, height } = liftBounds(study.limits);
  return current.length + height.length > 0;
}

function hasLimits({ study }: ReportInput): boolean {
  const varied = study.vary.map(({ path }) => path);
  return [SLOT.maxVoltage, SLOT.maxCurrent, SLOT.fuseRating].some(
    (slot) => !Number.isNaN(study.rig.slots[slot]!) || varied.includes(INPUTS[slot]!.path),
  );
}
