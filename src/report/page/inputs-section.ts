import { toUnit, type Unit } from '../../model/units.ts';
import type { GridCells } from '../../survey/grid-cells.ts';
import { headText, numberText } from '../../text/number-text.ts';
import { plainLabel } from '../charts/axis-title.ts';
import { inputTitle } from '../charts/effects-chart.ts';
import { mapCells } from '../charts/heat-map.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** A chart of one objective. */
export interface ObjectiveChart {
  readonly objective: number;
  readonly svg: string;
}

/** What each varied input does: main effects, and a map where two inputs form a grid. */
export function inputsSection(
  input: ReportInput,
  effects: readonly ObjectiveChart[],
  grid: GridCells | null,
  maps: readonly ObjectiveChart[],
): Markup {
  const isGrid = input.study.plan.kind === 'grid';
  return section('inputs', HEADINGS.inputs, [
    html`<p>Each panel takes one varied input and lets all others take all their values. The line is the mean over
every design with a value, also those that miss a limit; diamonds are the best feasible design. ${isGrid ? null : 'A search visits promising designs more often, so that its means lean toward them.'}</p>`,
    ...effects.map(({ objective, svg }) =>
      figure(
        svg,
        `${label(input, objective)} by each varied input, all panels on one scale.`,
        effectTable(input, objective),
      ),
    ),
    grid === null || maps.length === 0
      ? null
      : html`<h3>${inputTitle(input.study.vary[grid.inputs[1]]!)} and ${inputTitle(input.study.vary[grid.inputs[0]]!)} together</h3>`,
    ...(grid === null
      ? []
      : maps.map(({ objective, svg }) =>
          figure(svg, mapCaption(input, grid, objective), mapTable(input, grid, objective)),
        )),
  ]);
}

function label({ objectiveLabels }: ReportInput, objective: number): string {
  return plainLabel(objectiveLabels[objective]!);
}

function effectTable(input: ReportInput, objective: number): Markup {
  const { unit } = input.study.objectives[objective]!;
  const rows = input.survey.effects
    .filter((effect) => effect.objective === objective)
    .flatMap(({ input: v, bins, means, best, counts }) =>
      bins.labels.map((level, bin) => [
        inputTitle(input.study.vary[v]!),
        level,
        inUnit(means[bin]!, unit),
        inUnit(best[bin]!, unit),
        counts[bin]!.toLocaleString('en'),
      ]),
    );
  const name = headText(label(input, objective), unit);
  return dataTable(
    `Numbers of this chart: ${name} by input`,
    ['input', 'value', `mean ${name}`, `best feasible ${name}`, 'designs with a value'],
    rows,
  );
}

function mapCaption(input: ReportInput, grid: GridCells, objective: number): string {
  const { isFeasible } = mapCells(grid, objective);
  const kind = isFeasible ? 'feasible design' : 'design (none is feasible)';
  return `Best ${label(input, objective)} of any ${kind} with these two values, whatever its other inputs. A cross: there is none.`;
}

function mapTable(input: ReportInput, grid: GridCells, objective: number): Markup {
  const { unit } = input.study.objectives[objective]!;
  const [rows, columns] = grid.bins;
  const { cells } = mapCells(grid, objective);
  const name = headText(label(input, objective), unit);
  return dataTable(
    `Numbers of this map: ${name} by two inputs`,
    [inputTitle(input.study.vary[grid.inputs[0]]!), ...columns.labels],
    rows.labels.map((level, r) => [
      level,
      ...columns.labels.map((_, c) => inUnit(cells[r * columns.labels.length + c]!, unit)),
    ]),
  );
}

function inUnit(si: number, unit: Unit): string {
  return numberText(toUnit(si, unit));
}
