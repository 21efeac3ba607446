import { Q } from '../model/quantities.ts';
import type { GridCells } from '../survey/grid-cells.ts';
import { effectsChart } from './charts/effects-chart.ts';
import { type FrontChart, frontChart } from './charts/front-chart.ts';
import { heatMap, mapCells, recordingGrid } from './charts/heat-map.ts';
import { type LiftCurve, liftChart } from './charts/lift-chart.ts';
import { isWorthDrawing, orderedChart } from './charts/ordered-chart.ts';
import { liftBounds } from './fixed-bounds.ts';
import { letterOf } from './letters.ts';
import type { InputPictures, ObjectiveChart } from './page/inputs-section.ts';
import type { ChosenDesign, ReportInput } from './report-input.ts';

/** The first objective against each of so many others. */
const MOST_PAIRS = 3;
/** Objectives that get charts of their own. */
const MOST_OBJECTIVES = 4;
/** Inputs that lift-off and height are drawn against. */
const MOST_ORDERED = 3;

export async function frontPictures(
  input: ReportInput,
  descriptions: readonly string[],
): Promise<FrontChart[]> {
  const charts: FrontChart[] = [];
  for (const across of objectivesOf(input).slice(1, MOST_PAIRS + 1)) {
    charts.push(await frontChart(input, descriptions, across));
  }
  return charts;
}

/** What each varied input does. */
export async function inputPictures(input: ReportInput): Promise<InputPictures> {
  const { study, survey } = input;
  const objectives = study.vary.length === 0 ? [] : objectivesOf(input);
  const effects: ObjectiveChart[] = [];
  for (const objective of objectives) effects.push({ objective, svg: await effectsChart(input, objective) });
  const ordered: InputPictures['ordered'][number][] = [];
  for (const effect of survey.ordered.filter(isWorthDrawing).slice(0, MOST_ORDERED)) {
    ordered.push({ effect, svg: await orderedChart(input, effect) });
  }
  const grid: GridCells | null = recordingGrid(input);
  const maps: ObjectiveChart[] = [];
  for (const objective of grid === null ? [] : objectives) {
    const { cells } = mapCells(grid!, objective);
    if (new Set(cells.filter(Number.isFinite)).size > 1) {
      maps.push({ objective, svg: await heatMap(input, grid!, objective) });
    }
  }
  return { effects, ordered, grid, maps };
}

/** Of designs that float, of which there is one at least. */
export function liftPicture(input: ReportInput, floating: readonly ChosenDesign[]): Promise<string> {
  return liftChart(
    floating.map((design) => curveOf(input, design)),
    liftBounds(input.study.limits),
  );
}

function objectivesOf({ study }: ReportInput): number[] {
  return [...study.objectives.keys()].slice(0, MOST_OBJECTIVES);
}

function curveOf({ front, chosen }: ReportInput, { row, why, lift }: ChosenDesign): LiftCurve {
  const quantity = (q: number) => front.quantities[q * front.count + row]!;
  const operating = { current: quantity(Q.current), height: quantity(Q.height) };
  return {
    name: nameOf({ front, chosen }, row, why),
    lift,
    chatter: quantity(Q.chatter_current),
    operating: Number.isFinite(operating.current + operating.height) ? operating : null,
  };
}

export function nameOf(
  { front, chosen }: Pick<ReportInput, 'front' | 'chosen'>,
  row: number,
  why: string,
): string {
  return `${letterOf(chosen, row)}: design ${front.designs[row]}, ${why}`;
}
