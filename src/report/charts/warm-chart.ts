import type { TopLevelSpec } from 'vega-lite';
import { toUnit, UNITS } from '../../model/units.ts';
import { CURVES } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** Moments of a warming rig; SI, NaN where not known. */
export interface WarmCurve {
  readonly moments: readonly {
    readonly time: number;
    readonly height: number;
    readonly mean: number;
    readonly hottest: number;
    readonly plate: number;
  }[];
  /** False: no height to show. */
  readonly floats: boolean;
}

const LINES = ['hottest place', 'winding, mean', 'plate'] as const;

/** Temperatures over time, and below them the height. */
export async function warmChart(
  { moments, floats }: WarmCurve,
  size = { width: 590, height: 200 },
): Promise<string> {
  const celsius = (si: number) => toUnit(si, UNITS.degC);
  const minutes = (time: number) => time / 60;
  const values = moments.flatMap(({ time, mean, hottest, plate }) =>
    [hottest, mean, plate]
      .map((value, i) => ({ time: minutes(time), line: LINES[i]!, celsius: celsius(value) }))
      .filter((point) => Number.isFinite(point.celsius)),
  );
  const x = (title: string | null) => ({
    field: 'time',
    type: 'quantitative',
    axis: { title, grid: false },
    scale: { nice: false },
  });
  const scale = (what: 'ink' | 'dash') => ({
    field: 'line',
    type: 'nominal',
    scale: { domain: LINES, range: CURVES.slice(0, LINES.length).map((curve) => curve[what]) },
    legend: { title: null, orient: 'top', direction: 'horizontal' },
  });
  const temperatures = {
    ...size,
    data: { values },
    mark: { type: 'line', aria: false, strokeWidth: 1.8 },
    encoding: {
      x: x(floats ? null : 'time (min)'),
      y: { field: 'celsius', type: 'quantitative', axis: { title: 'temperature (°C)' } },
      color: scale('ink'),
      strokeDash: scale('dash'),
    },
  };
  const heights = {
    ...size,
    height: 90,
    data: {
      values: moments.map(({ time, height }) => ({ time: minutes(time), height: height * UNITS.mm.scale })),
    },
    mark: { type: 'line', aria: false, strokeWidth: 1.8, stroke: CURVES[0]!.ink },
    encoding: {
      x: x('time (min)'),
      y: { field: 'height', type: 'quantitative', axis: { title: 'height (mm)', tickCount: 4 } },
    },
  };
  const last = moments.at(-1)!;
  const alt = `Temperatures over ${Math.round(minutes(last.time))} min: hottest place ${Math.round(celsius(last.hottest))} °C at the end.`;
  const spec = floats ? { vconcat: [temperatures, heights] } : temperatures;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
