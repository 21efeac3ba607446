import { toUnit, UNITS, type Unit } from '../../model/units.ts';
import type { GridCells } from '../../survey/grid-cells.ts';
import type { OrderedEffect } from '../../survey/ordered-tally.ts';
import { grouped } from '../../text/grouped.ts';
import { headText, numberText } from '../../text/number-text.ts';
import { plainLabel } from '../charts/axis-title.ts';
import { hasMeans, inputTitle } from '../charts/effects-chart.ts';
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

/** Charts of what varies. */
export interface InputPictures {
  readonly effects: readonly ObjectiveChart[];
  readonly ordered: readonly { readonly effect: OrderedEffect; readonly svg: string }[];
  /** Null where no two inputs form one. */
  readonly grid: GridCells | null;
  readonly maps: readonly ObjectiveChart[];
}

/** What each varied input does: main effects, lift-off and height, and a map where two inputs form a grid. */
export function inputsSection(input: ReportInput, { effects, ordered, grid, maps }: InputPictures): Markup {
  return section('inputs', HEADINGS.inputs, [
    hasMeans(input.study)
      ? html`<p>Each panel takes one varied input and lets all others take all their values. The line is the mean over
every design with a value, also those that miss a limit; diamonds are the best feasible design.</p>`
      : html`<p>Each panel takes one varied input: diamonds are the best feasible design that the search visited.</p>`,
    ...effects.map(({ objective, svg }) =>
      figure(
        svg,
        `${label(input, objective)} by each varied input, all panels on one scale.`,
        effectTable(input, objective),
      ),
    ),
    ...ordered.map(({ effect, svg }) =>
      figure(svg, orderedCaption(input, effect), orderedTable(input, effect)),
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

function orderedCaption({ study }: ReportInput, { input, metal }: OrderedEffect): string {
  const each = metal === null ? '' : `, a line a ${inputTitle(study.vary[metal]!)}`;
  return `Lift-off and height against ${inputTitle(study.vary[input]!)}${each}: the least current at which any such design lifts off, and the greatest height of any at its own drive, also of designs that miss a limit.`;
}

function orderedTable({ study }: ReportInput, { input, metal, bins, lines }: OrderedEffect): Markup {
  return dataTable(
    `Numbers of this chart: lift-off and height by ${inputTitle(study.vary[input]!)}`,
    [
      ...(metal === null ? [] : [inputTitle(study.vary[metal]!)]),
      inputTitle(study.vary[input]!),
      'least lift-off current (A)',
      'greatest height (mm)',
    ],
    lines.flatMap(({ label, liftoff, height }) =>
      bins.labels.map((level, bin) => [
        ...(metal === null ? [] : [label]),
        level,
        numberText(liftoff[bin]!),
        inUnit(height[bin]!, UNITS.mm),
      ]),
    ),
  );
}

function effectTable(input: ReportInput, objective: number): Markup {
  const { unit } = input.study.objectives[objective]!;
  const isMeant = hasMeans(input.study);
  const rows = input.survey.effects
    .filter((effect) => effect.objective === objective)
    .flatMap(({ input: v, bins, means, best, counts }) =>
      bins.labels.map((level, bin) => [
        inputTitle(input.study.vary[v]!),
        level,
        ...(isMeant ? [inUnit(means[bin]!, unit)] : []),
        inUnit(best[bin]!, unit),
        grouped(counts[bin]!),
      ]),
    );
  const name = headText(label(input, objective), unit);
  return dataTable(
    `Numbers of this chart: ${name} by input`,
    ['input', 'value', ...(isMeant ? [`mean ${name}`] : []), `best feasible ${name}`, 'designs with a value'],
    rows,
  );
}

function mapCaption(input: ReportInput, grid: GridCells, objective: number): string {
  const { isFeasible } = mapCells(grid, objective);
  const kind = isFeasible ? 'feasible design' : 'design (none is feasible)';
  return `Best ${label(input, objective)} of any ${kind} with these two values, whatever its other inputs. Crosses: there is none, and which limit all such designs miss.`;
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
