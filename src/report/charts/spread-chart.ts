import type { TopLevelSpec } from 'vega-lite';
import { toUnit } from '../../model/units.ts';
import { type QuantitySpread, varies } from '../../rig/spread-profile.ts';
import { headText } from '../../text/number-text.ts';
import type { WatchedQuantity } from '../report-input.ts';
import { domainOf, plainLabel } from './axis-title.ts';
import { INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** One design: its letter, and a spread for each quantity. */
export interface SpreadRow {
  readonly letter: string;
  readonly quantities: readonly QuantitySpread[];
}

const ACROSS = 2;
const PANEL_WIDTH = 256;
const LINE = 26;
/** A bound farther off than this, in widths of what is drawn, is left out: it would squeeze the rest. */
const REACH = 1;

/** Quantities, by index, that the rigs of some design differ in. */
export function spreading(rows: readonly SpreadRow[], count: number): number[] {
  return [...new Array(count).keys()].filter((q) => rows.some(({ quantities }) => varies(quantities[q]!)));
}

/** A panel a quantity, a line a design: from the 5 % to the 95 % quantile, with the median and the design as drawn. */
export function spreadChart(
  rows: readonly SpreadRow[],
  watched: readonly WatchedQuantity[],
): Promise<string> {
  const shown = spreading(rows, watched.length);
  const letters = rows.map(({ letter }) => letter);
  const panels = shown.map((q, panel) => {
    const { label, unit, bounds } = watched[q]!;
    const values = rows.flatMap(({ letter, quantities }) => {
      const { own, p05, median, p95 } = quantities[q]!;
      const [from, middle, to, drawn] = [p05, median, p95, own].map((si) => toUnit(si, unit));
      return [from, middle, to, drawn].every(Number.isFinite) ? [{ letter, from, middle, to, drawn }] : [];
    });
    const drawn = values.flatMap((each) => [each.from!, each.to!, each.drawn!]);
    const [low, high] = [Math.min(...drawn), Math.max(...drawn)];
    const near = bounds
      .map(({ value }) => toUnit(value, unit))
      .filter((at) => Math.max(low - at, at - high) <= REACH * (high - low));
    const x = (field: string) => ({
      field,
      type: 'quantitative',
      scale: { domain: domainOf([...drawn, ...near], 0.06), nice: false },
      axis: { title: headText(plainLabel(label), unit), tickCount: 5, grid: true },
    });
    const y = {
      field: 'letter',
      type: 'nominal',
      scale: { domain: letters },
      axis: { title: null, labels: panel % ACROSS === 0, ticks: false, labelFontWeight: 'bold' },
    };
    return {
      width: PANEL_WIDTH,
      height: LINE * letters.length,
      data: { values },
      layer: [
        {
          data: { values: near.map((at) => ({ at })) },
          mark: { type: 'rule', aria: false, stroke: INK.second, strokeWidth: 1.6, strokeDash: [6, 3] },
          encoding: { x: x('at') },
        },
        {
          mark: { type: 'rule', aria: false, stroke: INK.front, strokeWidth: 3 },
          encoding: { x: x('from'), x2: { field: 'to' }, y },
        },
        {
          mark: { type: 'tick', aria: false, color: INK.front, thickness: 2, size: 15, opacity: 1 },
          encoding: { x: x('middle'), y },
        },
        {
          mark: {
            type: 'point',
            aria: false,
            size: 60,
            fill: INK.paper,
            stroke: INK.text,
            strokeWidth: 1.4,
            opacity: 1,
          },
          encoding: { x: x('drawn'), y },
        },
      ],
    };
  });
  const spec = { columns: ACROSS, spacing: { row: 22, column: 18 }, concat: panels };
  const alt =
    `${shown.map((q) => watched[q]!.label).join(', ')} of ${letters.length === 1 ? 'design' : 'designs'} ` +
    `${letters.join(', ')}: bars from the 5 % to the 95 % quantile of the rigs within tolerance.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
