import { Q } from '../model/quantities.ts';
import type { CardInput } from './card-input.ts';
import { liftChart } from './charts/lift-chart.ts';
import { motionChart } from './charts/motion-chart.ts';
import { warmChart } from './charts/warm-chart.ts';
import { crossSection } from './drawing/cross-section.ts';
import { rigOutline } from './drawing/rig-outline.ts';
import { liftBounds } from './fixed-bounds.ts';
import { cardPage } from './page/card-page.ts';

/** A third of a page wide on paper, with letters of 9 pt there. */
const CHART = { width: 190, height: 140 };

/** Half a page wide on paper. */
const COURSE = { width: 260, height: 110 };

/** The bench card of one design as a page that prints on both sides of one sheet. */
export async function buildCard(input: CardInput): Promise<string> {
  const { study, design, drawn, lift, operating, motion, warming } = input;
  const name = `Design ${design}`;
  const drawing = drawn === null ? null : crossSection(rigOutline(study, drawn), name);
  const chatter = drawn?.results[Q.chatter_current] ?? Number.NaN;
  const floats = lift.some(({ height }) => height > 0);
  const chart = floats
    ? await liftChart([{ name, lift, operating, chatter }], liftBounds(study.limits), CHART)
    : null;
  return cardPage(input, {
    drawing,
    lift: chart,
    motion: motion && (await motionChart(motion, { ...COURSE, height: 190 })),
    warming: warming && (await warmChart(warming, COURSE)),
  });
}
