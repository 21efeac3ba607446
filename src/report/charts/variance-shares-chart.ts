import type { TopLevelSpec } from 'vega-lite';
import { varianceSharesOf } from '../../rig/spread-profile.ts';
import { shortText } from '../../text/clean-text.ts';
import type { WatchedQuantity } from '../report-input.ts';
import { plainLabel } from './axis-title.ts';
import { CURVES } from './palette.ts';
import { renderChart } from './render-chart.ts';
import type { SpreadRow } from './spread-chart.ts';

const ACROSS = 3;
const PANEL_WIDTH = 140;
const LINE = 21;
/** Px a tolerance for each further design. */
const EXTRA = 7;

/** Quantities, by index, whose spread slopes explain for some design. */
export function explained(rows: readonly SpreadRow[], count: number): number[] {
  return [...new Array(count).keys()].filter((q) =>
    rows.some(({ quantities }) => varianceSharesOf(quantities[q]!) !== null),
  );
}

/** A panel a quantity: how much of its variance each tolerance makes, a mark a design. */
export function varianceSharesChart(
  rows: readonly SpreadRow[],
  watched: readonly WatchedQuantity[],
  allowed: readonly string[],
): Promise<string> {
  const shown = explained(rows, watched.length);
  const letters = rows.map(({ letter }) => letter);
  const names = allowed.map((name) => shortText(name, 34));
  const legend = letters.length === 1 ? null : { title: null, orient: 'top', direction: 'horizontal' };
  const scale = (what: 'ink' | 'mark') => ({
    field: 'letter',
    type: 'nominal',
    scale: { domain: letters, range: letters.map((_, i) => CURVES[i % CURVES.length]![what]) },
    legend,
  });
  const panels = shown.map((q, panel) => ({
    title: { text: plainLabel(watched[q]!.label) },
    width: PANEL_WIDTH,
    height: (LINE + EXTRA * (letters.length - 1)) * names.length,
    data: {
      values: rows.flatMap(({ letter, quantities }) =>
        (varianceSharesOf(quantities[q]!) ?? []).map((share, t) => ({
          letter,
          name: names[t],
          percent: 100 * Math.min(1, share),
        })),
      ),
    },
    mark: { type: 'point', aria: false, filled: true, size: 46, opacity: 1 },
    encoding: {
      x: {
        field: 'percent',
        type: 'quantitative',
        scale: { domain: [-4, 104], nice: false },
        axis: { title: '% of the variance', values: [0, 50, 100], grid: true },
      },
      y: {
        field: 'name',
        type: 'nominal',
        sort: null,
        scale: { type: 'band', domain: names },
        axis: { title: null, grid: true, ticks: false, labels: panel % ACROSS === 0, labelLimit: 240 },
      },
      // designs that agree would hide each other
      ...(letters.length > 1 && {
        yOffset: { field: 'letter', type: 'nominal', scale: { domain: letters } },
      }),
      color: scale('ink'),
      shape: scale('mark'),
    },
  }));
  const spec = {
    columns: ACROSS,
    spacing: { row: 22, column: 14 },
    concat: panels,
    resolve: { legend: { color: 'shared', shape: 'shared' } },
  };
  const alt = `How much of the variance of ${shown.map((q) => watched[q]!.label).join(', ')} comes from ${allowed.join(', ')}.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
