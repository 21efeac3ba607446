import type { TopLevelSpec } from 'vega-lite';
import { toUnit } from '../../model/units.ts';
import type { GridCells } from '../../survey/grid-cells.ts';
import type { MainEffect } from '../../survey/main-effects.ts';
import type { ReportInput } from '../report-input.ts';
import { domainOf, labelled, objectiveTitle } from './axis-title.ts';
import { category } from './category.ts';
import { inputTitle } from './effects-chart.ts';
import { legendColumns } from './legend-columns.ts';
import { type LimitMark, limitMarks, STAR } from './limit-marks.ts';
import { INK, RAMP } from './palette.ts';
import { renderChart } from './render-chart.ts';

const LARGEST = { width: 500, height: 340 };
const CELL = { smallest: 9, largest: 34 };

/** The pair of inputs with the largest effects on the first objective, among those that form a grid; null: none do. */
export function recordingGrid({ survey }: ReportInput): GridCells | null {
  const size = (v: number) => {
    const effect = survey.effects.find(({ input, objective }) => input === v && objective === 0);
    return effect ? effectSize(effect) : 0;
  };
  const shortest = ({ bins }: GridCells) => Math.min(...bins.map(({ labels }) => labels.length));
  // a side of two levels adds little to the main effects; two of them are four cells, and a table does better
  const wide = survey.grids.filter((grid) => shortest(grid) >= 3);
  const worthwhile = wide.length > 0 ? wide : survey.grids.filter(({ bins }) => bins[1].labels.length >= 3);
  const weight = ({ inputs }: GridCells) => size(inputs[0]) + size(inputs[1]);
  return worthwhile.reduce<GridCells | null>(
    (best, grid) => (best === null || weight(grid) > weight(best) ? grid : best),
    null,
  );
}

/** The value of each cell that a map shows, SI: of feasible designs if there are any at all, else of all. */
export function mapCells({ best, bestOfAll }: GridCells, objective: number) {
  const feasible = best[objective]!;
  const isFeasible = feasible.some((value) => Number.isFinite(value));
  return { cells: isFeasible ? feasible : bestOfAll[objective]!, isFeasible };
}

/** One objective over two inputs: the best that any design with these two values reaches. */
export async function heatMap(input: ReportInput, grid: GridCells, objective: number): Promise<string> {
  const { study, objectiveLabels } = input;
  const { unit } = study.objectives[objective]!;
  const [rows, columns] = grid.bins;
  const { cells, isFeasible } = mapCells(grid, objective);
  const marks = limitMarks(input);
  const width = columns.labels.length;
  const step = (count: number, most: number) =>
    Math.min(CELL.largest, Math.max(CELL.smallest, Math.floor(most / count)));
  const steps = { column: step(width, LARGEST.width), row: step(rows.labels.length, LARGEST.height) };
  const values = [...cells].map((si, i) => ({
    row: category(rows.labels[Math.floor(i / width)]!),
    column: category(columns.labels[i % width]!),
    value: Number.isFinite(si) ? toUnit(si, unit) : null,
    // where no design at all is feasible, the map is of all, and an empty cell is one without a value
    kind: isFeasible ? kindOf(grid.missed[i]!, marks) : VALUELESS,
  }));
  const kinds = [
    ...marks.map((mark) => ({ ...mark, name: nameOf(mark) })),
    { name: OTHER, shape: STAR },
    { name: VALUELESS, shape: STAR },
  ].filter(({ name }) => values.some(({ value, kind }) => value === null && kind === name));
  const crosses = {
    transform: [{ filter: { field: 'value', valid: false } }],
    mark: { type: 'point', aria: false, size: 26, strokeWidth: 1.2, opacity: 1, stroke: INK.quiet },
    encoding: {
      shape: {
        field: 'kind',
        type: 'nominal',
        scale: { domain: kinds.map(({ name }) => name), range: kinds.map(({ shape }) => shape) },
        legend: {
          title: null,
          orient: 'top',
          direction: 'horizontal',
          columns: legendColumns(
            kinds.map(({ name }) => name),
            LARGEST.width,
          ),
          symbolStrokeColor: INK.quiet,
        },
      },
    },
  };
  const filled = values.flatMap(({ value }) => (value === null ? [] : [value]));
  const title = objectiveTitle(objectiveLabels[objective]!, study.objectives[objective]!);
  const spec = {
    title: { text: title },
    width: { step: steps.column },
    height: { step: steps.row },
    data: { values },
    encoding: {
      x: cellAxis('column', columns.labels, inputTitle(study.vary[grid.inputs[1]]!), steps.column),
      y: cellAxis('row', [...rows.labels].reverse(), inputTitle(study.vary[grid.inputs[0]]!), steps.row),
    },
    layer: [
      {
        transform: [{ filter: { field: 'value', valid: true } }],
        mark: { type: 'rect', aria: false, stroke: INK.paper, strokeWidth: 1 },
        encoding: {
          fill: {
            field: 'value',
            type: 'quantitative',
            scale: { type: 'quantize', domain: domainOf(filled, 0), range: RAMP },
            legend: { title: null, orient: 'right' },
          },
        },
      },
      ...(kinds.length === 0 ? [] : [crosses]),
    ],
  };
  const alt =
    `Map of the best ${objectiveLabels[objective]} over ${width} by ${rows.labels.length} values of two inputs, from ` +
    'pale (low) to dark (high); crosses mark values with no such design, by the limit that all of them miss.';
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

/** Of cells whose designs miss this and that, or a limit that has no cross of its own, or cannot be built. */
const OTHER = category('none meets all limits');

const VALUELESS = category('no value');

function nameOf({ text }: LimitMark): string {
  return category(`all miss ${text}`);
}

function kindOf(missed: number, marks: readonly LimitMark[]): string {
  const mark = marks.find(({ bit }) => (missed & bit) !== 0);
  return mark === undefined ? OTHER : nameOf(mark);
}

function cellAxis(field: 'row' | 'column', labels: readonly string[], title: string, step: number) {
  const turned = field === 'column' && labels.some((label) => label.length > 4);
  const domain = labels.map(category);
  return {
    field,
    type: 'ordinal',
    sort: domain,
    scale: { domain },
    axis: {
      title,
      labelAngle: turned ? -45 : 0,
      labelLimit: 110,
      labelOverlap: false,
      // rows of text are as tall as turned ones
      values: labelled(domain, step, turned || field === 'row'),
      grid: false,
      ticks: false,
      domain: false,
    },
  };
}

/** How far the mean moves from its lowest to its highest bin. */
function effectSize({ means }: MainEffect): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const mean of means) {
    if (mean < low) low = mean;
    if (mean > high) high = mean;
  }
  return high >= low ? high - low : 0;
}
