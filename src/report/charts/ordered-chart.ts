import type { TopLevelSpec } from 'vega-lite';
import { UNITS } from '../../model/units.ts';
import type { OrderedEffect } from '../../survey/ordered-tally.ts';
import type { ReportInput } from '../report-input.ts';
import { scaleFor } from './axis-title.ts';
import { category } from './category.ts';
import { inputAxis, inputTitle } from './effects-chart.ts';
import { legendColumns } from './legend-columns.ts';
import { METAL_INKS } from './metal-inks.ts';
import { renderChart } from './render-chart.ts';

const SIZE = { width: 590, height: 170 };

/** Somewhere something lifts, and it matters which value the input has. */
export function isWorthDrawing({ lines }: OrderedEffect): boolean {
  const differs = (values: Float64Array) => new Set(values.filter(Number.isFinite)).size > 1;
  return lines.some(({ liftoff, height }) => differs(liftoff) || differs(height));
}

/** Lift-off current and, below it, height against one ordered input; a line a metal where one is varied. */
export async function orderedChart({ study }: ReportInput, effect: OrderedEffect): Promise<string> {
  const { bins, lines, input, metal } = effect;
  const title = inputTitle(study.vary[input]!);
  const points = lines.flatMap(({ label, liftoff, height }) =>
    bins.labels.map((name, bin) => ({
      at: bins.positions[bin] ?? category(name),
      metal: category(label),
      // where no design has a value a line breaks off
      liftoff: Number.isFinite(liftoff[bin]!) ? liftoff[bin]! : null,
      height: Number.isFinite(height[bin]!) ? height[bin]! * UNITS.mm.scale : null,
    })),
  );
  const currents = points.flatMap((point) => point.liftoff ?? []);
  const isLog = scaleFor(currents) === 'log';
  const liftoffScale = isLog ? { type: 'log' } : { zero: false };
  const names = lines.map(({ label }) => category(label));
  const legend =
    metal === null
      ? null
      : {
          title: null,
          orient: 'top',
          direction: 'horizontal',
          symbolSize: 60,
          columns: legendColumns(names, SIZE.width),
        };
  const channel = (what: 'ink' | 'dash' | 'mark') => ({
    field: 'metal',
    type: 'nominal',
    scale: { domain: names, range: METAL_INKS.slice(0, names.length).map((each) => each[what]) },
    legend,
  });
  const panel = (field: 'liftoff' | 'height', words: string, isLast: boolean) => {
    const { axis, ...x } = inputAxis(bins, title, SIZE.width);
    const values = points.filter((point) => point[field] !== null);
    const place = {
      x: { ...x, axis: isLast ? axis : { ...axis, title: null } },
      y: {
        field,
        type: 'quantitative',
        axis: {
          title: words,
          tickCount: 5,
          ...(isLog && field === 'liftoff' ? { values: decades(currents) } : {}),
        },
        scale: field === 'height' ? { zero: true } : liftoffScale,
      },
    };
    return {
      ...SIZE,
      // a line over a gap would show what was never computed
      data: { values: points },
      layer: [
        {
          mark: { type: 'line', aria: false, strokeWidth: 1.8, invalid: 'break-paths-show-domains' },
          encoding: { ...place, color: channel('ink'), strokeDash: channel('dash') },
        },
        {
          data: { values },
          mark: { type: 'point', aria: false, filled: true, size: 36, opacity: 1 },
          encoding: { ...place, color: channel('ink'), shape: channel('mark') },
        },
      ],
    };
  };
  const spec = {
    vconcat: [
      panel('liftoff', 'least lift-off current (A)', false),
      panel('height', 'greatest height (mm)', true),
    ],
  };
  const each = metal === null ? '' : `, a line for each of ${lines.map(({ label }) => label).join(', ')}`;
  const alt = `Least lift-off current and greatest height against ${title}${each}.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

/** Powers of ten from below the least to above the greatest. */
function decades(values: readonly number[]): number[] {
  const from = Math.floor(Math.log10(Math.min(...values)));
  const to = Math.ceil(Math.log10(Math.max(...values)));
  return Array.from({ length: to - from + 1 }, (_, i) => 10 ** (from + i));
}
