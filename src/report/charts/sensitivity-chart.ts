import type { TopLevelSpec } from 'vega-lite';
import { shortText } from '../../text/clean-text.ts';
import { headText } from '../../text/number-text.ts';
import type { DesignSensitivities, WatchedQuantity } from '../report-input.ts';
import { plainLabel } from './axis-title.ts';
import { CURVES, INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** One design: its letter, and what its inputs change. */
export interface ChangedDesign {
  readonly letter: string;
  readonly inputs: DesignSensitivities['inputs'];
}

const ACROSS = 3;
const PANEL_WIDTH = 150;
const LINE = 20;
/** Px an input for each further design. */
const EXTRA = 7;
/** Inputs that are drawn: those that do most. */
const MOST_INPUTS = 8;
/** Panels: what a builder looks at first. */
const MOST_PANELS = 6;

/** A panel a quantity: what one per cent more of each input changes, a mark a design, from no change on. */
export function sensitivityChart(
  designs: readonly ChangedDesign[],
  quantities: readonly Pick<WatchedQuantity, 'label' | 'unit'>[],
): Promise<string> {
  const names = drawnInputs(designs);
  const letters = designs.map(({ letter }) => letter);
  const legend = letters.length === 1 ? null : { title: null, orient: 'top', direction: 'horizontal' };
  const scale = (what: 'ink' | 'mark') => ({
    field: 'letter',
    type: 'nominal',
    scale: { domain: letters, range: letters.map((_, i) => CURVES[i % CURVES.length]![what]) },
    legend,
  });
  const valuesOf = (q: number) =>
    designs.flatMap(({ letter, inputs }) =>
      inputs
        .filter(({ name, changes }) => names.includes(name) && Number.isFinite(changes[q]!.more))
        .map(({ name, changes }) => ({ letter, name: shortText(name, 34), from: 0, more: changes[q]!.more })),
    );
  const shown = [...quantities.keys()]
    .filter((q) => valuesOf(q).some(({ more }) => more !== 0))
    .slice(0, MOST_PANELS);
  const panels = shown.map((q, panel) => {
    const { label, unit } = quantities[q]!;
    const y = {
      field: 'name',
      type: 'nominal',
      sort: null,
      scale: { type: 'band', domain: names.map((name) => shortText(name, 34)) },
      axis: { title: null, grid: true, ticks: false, labels: panel % ACROSS === 0, labelLimit: 240 },
    };
    // designs that agree would hide each other
    const yOffset =
      letters.length > 1 ? { yOffset: { field: 'letter', type: 'nominal', scale: { domain: letters } } } : {};
    const x = (field: string) => ({
      field,
      type: 'quantitative',
      axis: { title: headText(plainLabel(label), unit), tickCount: 4, grid: true },
    });
    return {
      width: PANEL_WIDTH,
      height: (LINE + EXTRA * (letters.length - 1)) * names.length,
      data: { values: valuesOf(q) },
      layer: [
        {
          data: { values: [{ at: 0 }] },
          mark: { type: 'rule', aria: false, stroke: INK.text, strokeWidth: 1 },
          encoding: { x: x('at') },
        },
        {
          mark: { type: 'rule', aria: false, strokeWidth: 2 },
          encoding: { x: x('from'), x2: { field: 'more' }, y, ...yOffset, color: scale('ink') },
        },
        {
          mark: { type: 'point', aria: false, filled: true, size: 42, opacity: 1 },
          encoding: { x: x('more'), y, ...yOffset, color: scale('ink'), shape: scale('mark') },
        },
      ],
    };
  });
  const spec = {
    columns: ACROSS,
    spacing: { row: 22, column: 14 },
    concat: panels,
    resolve: { legend: { color: 'shared', shape: 'shared' } },
  };
  const alt = `What one per cent more of ${names.join(', ')} changes of ${shown.map((q) => quantities[q]!.label).join(', ')}.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

/** Whether there is anything to draw. */
export function isDrawn(designs: readonly ChangedDesign[]): boolean {
  return designs.some(({ inputs }) =>
    inputs.some(({ changes }) => changes.some(({ more }) => Number.isFinite(more) && more !== 0)),
  );
}

/** Of every design the first, then of every design the second, and so on. */
function drawnInputs(designs: readonly ChangedDesign[]): string[] {
  const ordered = designs.map(({ inputs }) =>
    inputs
      .filter(({ changes }) => changes.some(({ more }) => Number.isFinite(more) && more !== 0))
      .map(({ name }) => name),
  );
  const longest = Math.max(...ordered.map((names) => names.length));
  const turn = Array.from({ length: longest }, (_, i) => ordered.flatMap((names) => names[i] ?? [])).flat();
  return [...new Set(turn)].slice(0, MOST_INPUTS);
}
