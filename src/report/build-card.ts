import type { CardInput } from './card-input.ts';
import { liftChart } from './charts/lift-chart.ts';
import { crossSection } from './drawing/cross-section.ts';
import { rigOutline } from './drawing/rig-outline.ts';
import { cardPage } from './page/card-page.ts';

/** A third of a page wide on paper, with letters of 9 pt there. */
const CHART = { width: 190, height: 140 };

/** The bench card of one design as a page that prints on both sides of one sheet. */
export async function buildCard(input: CardInput): Promise<string> {
  const { study, design, drawn, lift, operating } = input;
  const name = `Design ${design}`;
  const drawing = drawn === null ? null : crossSection(rigOutline(study, drawn), name);
  const floats = lift.some(({ height }) => height > 0);
  const chart = floats ? await liftChart([{ name, lift, operating }], CHART) : null;
  return cardPage(input, drawing, chart);
}
