import type { CardInput } from './card-input.ts';
import { liftChart } from './charts/lift-chart.ts';
import { crossSection } from './drawing/cross-section.ts';
import { rigOutline } from './drawing/rig-outline.ts';
import { cardPage } from './page/card-page.ts';

/** Half as wide as a page, to stand beside other things. */
const CHART = { width: 270, height: 190 };

/** The bench card of one design as a page that prints on one sheet. */
export async function buildCard(input: CardInput): Promise<string> {
  const { study, design, drawn, lift, operating } = input;
  const name = `Design ${design}`;
  const drawing = drawn === null ? null : crossSection(rigOutline(study, drawn), name);
  const floats = lift.some(({ height }) => height > 0);
  const chart = floats ? await liftChart([{ name, lift, operating }], CHART) : null;
  return cardPage(input, drawing, chart);
}
