import type { TopLevelSpec } from 'vega-lite';
import { countText, headText } from '../../text/number-text.ts';
import type { ComparedPoint, ComparedQuantity } from '../comparison-input.ts';
import { domainOf } from './axis-title.ts';
import { INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

const PANEL = { width: 250, height: 210 };
/** Bars reach this many standard uncertainties to each side: about 19 of 20 true values lie within. */
export const COVERAGE = 2;

const SERIES = [
  { name: 'measured', ink: INK.text, mark: 'circle', fill: INK.text, dash: [1, 0] },
  { name: 'the model', ink: INK.second, mark: 'square', fill: 'transparent', dash: [6, 3] },
  { name: 'the model, fitted', ink: INK.front, mark: 'diamond', fill: 'transparent', dash: [1, 0] },
] as const;

/** One quantity: measured and model over the drive, and beside it what is left between them. */
export function measuredChart(quantity: ComparedQuantity): Promise<string> {
  const { label, unit, differenceUnit, across, isCurve, points } = quantity;
  const hasFit = points.some(({ fitted }) => Number.isFinite(fitted));
  const shown = SERIES.slice(0, hasFit ? 3 : 2);
  const scale = (what: 'ink' | 'mark' | 'fill') => ({
    field: 'series',
    type: 'nominal',
    scale: { domain: shown.map(({ name }) => name), range: shown.map((each) => each[what]) },
    legend: { title: null, orient: 'top', direction: 'horizontal', symbolSize: 60, columnPadding: 18 },
  });
  const marks = { shape: scale('mark'), fill: scale('fill'), stroke: scale('ink') };
  const x = {
    field: 'at',
    type: 'quantitative',
    scale: {
      domain: domainOf(
        points.map(({ at }) => at),
        0.06,
      ),
      nice: false,
    },
    axis: { title: across, grid: false, tickCount: 6 },
  };
  const y = (field: string, title: string, values: readonly number[]) => ({
    field,
    type: 'quantitative',
    scale: { domain: domainOf(values, 0.08), nice: false },
    axis: { title, tickCount: 6 },
  });
  const panel = (
    title: string,
    measuredAt: (point: ComparedPoint) => number,
    modelAt: typeof measuredAt,
    fittedAt: typeof measuredAt,
    zero: boolean,
  ) => {
    const rows = points.flatMap((point) =>
      [measuredAt, modelAt, fittedAt].slice(0, shown.length).flatMap((of, s) => {
        const value = of(point);
        const bar = s === 0 && !Number.isNaN(point.uncertainty) ? COVERAGE * point.uncertainty : 0;
        return Number.isFinite(value)
          ? [{ at: point.at, series: SERIES[s]!.name, value, low: value - bar, high: value + bar }]
          : [];
      }),
    );
    const all = [...rows.flatMap(({ low, high }) => [low, high]), ...(zero ? [0] : [])];
    const ofSeries = (series: string) => rows.filter((row) => row.series === series);
    const up = (field: string) => y(field, title, all);
    return {
      ...PANEL,
      layer: [
        ...(zero
          ? [
              {
                data: { values: [{ value: 0 }] },
                mark: { type: 'rule', aria: false, stroke: INK.text, strokeWidth: 1 },
                encoding: { y: up('value') },
              },
            ]
          : []),
        ...(isCurve && !zero ? shown.slice(1) : []).map(({ name, ink, dash }) => ({
          data: { values: ofSeries(name) },
          mark: { type: 'line', aria: false, stroke: ink, strokeWidth: 1.4, strokeDash: dash },
          encoding: { x, y: up('value') },
        })),
        {
          data: { values: rows.filter(({ low, high }) => high > low) },
          mark: { type: 'rule', aria: false, stroke: INK.text, strokeWidth: 1.2 },
          encoding: { x, y: up('low'), y2: { field: 'high' } },
        },
        {
          // on the right a measured point is the zero line, and its bar what its uncertainty allows
          data: { values: zero ? rows.filter(({ series }) => series !== SERIES[0].name) : rows },
          mark: { type: 'point', aria: false, size: 44, strokeWidth: 1.4, opacity: 1 },
          encoding: { x, y: up('value'), ...marks },
        },
      ],
    };
  };
  const spec = {
    spacing: 24,
    hconcat: [
      panel(
        headText(label, unit),
        (p) => p.measured,
        (p) => p.model,
        (p) => p.fitted,
        false,
      ),
      panel(
        headText('measured − model', differenceUnit),
        () => 0,
        ({ model, measured }) => measured - model,
        ({ fitted, measured }) => measured - fitted,
        true,
      ),
    ],
    resolve: { legend: { shape: 'shared', fill: 'shared', stroke: 'shared' } },
  };
  const alt =
    `${label} over ${across}: ${countText(points.length, 'measured point')}, the model${hasFit ? ', the fitted model' : ''}; ` +
    'beside it how far the model is from each of them.';
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
