import { inCurrency } from '../text/currency.ts';
import { headText } from '../text/number-text.ts';
import { MOST_CURVES } from './charts/design-curves.ts';
import { motionChart } from './charts/motion-chart.ts';
import { isDrawn, sensitivityChart } from './charts/sensitivity-chart.ts';
import { sidewaysChart } from './charts/sideways-chart.ts';
import { spreadChart, spreading } from './charts/spread-chart.ts';
import { explained, varianceSharesChart } from './charts/variance-shares-chart.ts';
import { warmChart } from './charts/warm-chart.ts';
import { crossSection } from './drawing/cross-section.ts';
import { movingPicture } from './drawing/moving-picture.ts';
import { drawnRow, rigOutline } from './drawing/rig-outline.ts';
import { cardColumns, cellText, type FrontColumn, frontColumns } from './front-columns.ts';
import { letterOf } from './letters.ts';
import { frontPictures, inputPictures, liftPicture, nameOf } from './main-pictures.ts';
import { calibrationSection } from './page/calibration-section.ts';
import { cautionsSection } from './page/cautions-section.ts';
import { frontSection } from './page/front-section.ts';
import { inputsSection } from './page/inputs-section.ts';
import { floatingDesigns, liftSection } from './page/lift-section.ts';
import { limitsSection } from './page/limits-section.ts';
import { type MotionPictures, motionSection } from './page/motion-section.ts';
import { provenanceSection } from './page/provenance-section.ts';
import { reportPage } from './page/report-page.ts';
import { rigsSection } from './page/rigs-section.ts';
import { changing, sensitivitySection } from './page/sensitivity-section.ts';
import { pushedDesigns, sidewaysSection } from './page/sideways-section.ts';
import { spreadRows, toleranceSection } from './page/tolerance-section.ts';
import { warmingSection } from './page/warming-section.ts';
import type { ChosenDesign, Figure, Report, ReportInput } from './report-input.ts';
import { evenlyChosen, shownFront } from './shown-front.ts';

/** Designs whose cards carry a drawing. */
const MOST_DRAWN = 60;

/** A study's results as one page and as figures. The same input gives the same bytes. */
export async function buildReport(whole: ReportInput): Promise<Report> {
  // 1. which designs, with which numbers
  const shown = shownFront(whole);
  const { input } = shown;
  const { study, front, chosen, objectiveLabels } = input;
  const columns = frontColumns(study, objectiveLabels, front);
  const descriptions = Array.from({ length: front.count }, (_, row) => describeRow(input, columns, row));

  // 2. pictures
  const frontCharts = await frontPictures(input, descriptions);
  const { effects, ordered, grid, maps } = await inputPictures(input);
  const floating = floatingDesigns(input);
  const lift = floating.length === 0 ? null : await liftPicture(input, floating);
  const pushed = pushedDesigns(input).slice(0, MOST_CURVES);
  const sidewaysSvg = await sidewaysPicture(input, pushed);
  const spreads = spreadRows(input);
  const spreadSvg =
    spreading(spreads, input.watched.length).length === 0 ? null : await spreadChart(spreads, input.watched);
  const sharesSvg =
    explained(spreads, input.watched.length).length === 0
      ? null
      : await varianceSharesChart(spreads, input.watched, input.allowed);
  const changed = changing(input);
  const changesSvg = isDrawn(changed) ? await sensitivityChart(changed, input.changeable) : null;
  const drawn = evenlyChosen(
    front.count,
    MOST_DRAWN,
    chosen.map(({ row }) => row),
  );
  const drawings = new Map(drawn.map((row) => [row, drawingOf(input, row)]));

  const motions = await motionPictures(input);
  const warmings = new Map<number, string>();
  for (const { row, warming } of chosen) if (warming !== null) warmings.set(row, await warmChart(warming));

  // 3. the page
  const chosenRows = new Set(chosen.map(({ row }) => row));
  const onlyInCards = new Map(
    [...drawings].filter(([row]) => !chosenRows.has(row)).map(([row, svg]) => [front.designs[row]!, svg]),
  );
  const sections = {
    front: study.objectives.length === 0 ? null : frontSection(shown, frontCharts, columns),
    rigs: rigsSection(input, drawings, columns),
    lift: lift === null ? null : liftSection(input, floating, lift),
    motion: motionSection(input, motions),
    warming: warmingSection(input, warmings),
    sideways: sidewaysSection(input, pushed, sidewaysSvg),
    inputs:
      effects.length === 0 || study.vary.length === 0
        ? null
        : inputsSection(input, { effects, ordered, grid, maps }),
    sensitivities: sensitivitySection(input, changesSvg),
    limits: limitsSection(whole),
    tolerances: toleranceSection(input, spreadSvg, sharesSvg),
    calibration: calibrationSection(input),
    cautions: cautionsSection(input),
    provenance: provenanceSection(input),
  };
  const html = reportPage(shown, sections, cardColumns(study, front), onlyInCards);

  // 4. the same pictures as files
  const figures: Figure[] = [
    ...numbered(
      'front',
      frontCharts.map(({ svg }) => svg),
    ),
    ...numbered(
      'effects',
      effects.map(({ svg }) => svg),
    ),
    ...numbered(
      'ordered',
      ordered.map(({ svg }) => svg),
    ),
    ...numbered(
      'map',
      maps.map(({ svg }) => svg),
    ),
    ...present([
      ['lift', lift],
      ['sideways', sidewaysSvg],
      ['sensitivities', changesSvg],
      ['spread', spreadSvg],
      ['shares', sharesSvg],
    ]),
    ...[...motions].map(
      ([row, { curve }]): Figure => ({ name: `motion-${front.designs[row]}.svg`, svg: curve }),
    ),
    ...[...warmings].map(([row, svg]): Figure => ({ name: `warm-${front.designs[row]}.svg`, svg })),
    ...chosen.map(({ row }): Figure => ({ name: `rig-${front.designs[row]}.svg`, svg: drawings.get(row)! })),
  ];
  return {
    html: inCurrency(html, study),
    figures: figures.map(({ name, svg }) => ({ name, svg: inCurrency(svg, study) })),
  };
}

/** One picture goes by its name, several by their number, too. */
function numbered(name: string, svgs: readonly string[]): Figure[] {
  return svgs.map((svg, i) => ({ name: svgs.length === 1 ? `${name}.svg` : `${name}-${i + 1}.svg`, svg }));
}

function present(pictures: readonly (readonly [name: string, svg: string | null])[]): Figure[] {
  return pictures.flatMap(([name, svg]) => (svg === null ? [] : [{ name: `${name}.svg` as const, svg }]));
}

/** For hover and for screen readers, a line each: the design, what varies, the objectives. */
function describeRow({ study, front }: ReportInput, columns: readonly FrontColumn[], row: number): string {
  const named = columns.slice(0, study.vary.length + study.objectives.length);
  const lines = named.map(({ label, unit, cells }) => `${headText(label, unit)}: ${cellText(cells[row]!)}`);
  return [`design ${front.designs[row]}`, ...lines].join('\n');
}

async function sidewaysPicture(input: ReportInput, pushed: readonly ChosenDesign[]): Promise<string | null> {
  if (pushed.length === 0) return null;
  const curves = pushed.map(({ row, why, sideways }) => ({
    name: nameOf(input, row, why),
    curve: sideways!.curve,
    at: sideways!.at,
  }));
  return sidewaysChart(curves);
}

/** Of the chosen designs whose motion was computed, by row. */
async function motionPictures(input: ReportInput): Promise<Map<number, MotionPictures>> {
  const { study, front, chosen, slotsOf } = input;
  const pictures = new Map<number, MotionPictures>();
  for (const { row, motion, sideways } of chosen) {
    if (motion === null) continue;
    // as the cross-section is drawn, so that both have one scale
    const drawn = drawnRow(front, row, { slots: slotsOf(row), heat: null, sideways: sideways?.at ?? null });
    const outline = rigOutline(study, drawn);
    const design = front.designs[row]!;
    const title = `${letterOf(chosen, row) ?? ''}: design ${design}`;
    pictures.set(row, {
      moving: movingPicture(outline, motion, `moving${design}`, title),
      curve: await motionChart(motion),
    });
  }
  return pictures;
}

function drawingOf(input: ReportInput, row: number): string {
  const { study, front, chosen, slotsOf } = input;
  const choice = chosen.find((design) => design.row === row);
  const letter = letterOf(chosen, row);
  const name = `Design ${front.designs[row]}`;
  const title = choice === undefined ? name : `${letter}: design ${front.designs[row]}, ${choice.why}`;
  const sideways = choice?.sideways?.at ?? null;
  const design = drawnRow(front, row, { slots: slotsOf(row), heat: choice?.heat ?? null, sideways });
  return crossSection(rigOutline(study, design), title);
}
