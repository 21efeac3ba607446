import type { TopLevelSpec } from 'vega-lite';
import { UNITS } from '../../model/units.ts';
import { INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** Heights over time; SI. */
export interface MotionCurve {
  readonly time: ArrayLike<number>;
  readonly height: ArrayLike<number>;
  /** Where it comes to float; NaN: nowhere. */
  readonly steadyHeight: number;
  /** NaN where the study gives none. */
  readonly headroom: number;
}

/** Points of the curve: more than a picture shows. */
const POINTS = 700;

/** Height over time, where it comes to float, and what is above. */
export async function motionChart(
  { time, height, steadyHeight, headroom }: MotionCurve,
  size = { width: 590, height: 220 },
): Promise<string> {
  const every = Math.max(1, Math.ceil(time.length / POINTS));
  const values = Array.from({ length: Math.ceil(time.length / every) }, (_, i) => ({
    time: time[i * every]!,
    height: height[i * every]! * UNITS.mm.scale,
  }));
  const highest = Math.max(0, ...values.map((point) => point.height));
  const rule = (mm: number, dash: readonly number[]) => ({
    data: { values: [{ height: mm }] },
    mark: { type: 'rule', aria: false, stroke: INK.quiet, strokeDash: dash },
    encoding: { y: { field: 'height', type: 'quantitative' } },
  });
  const steady = steadyHeight * UNITS.mm.scale;
  const ceiling = headroom * UNITS.mm.scale;
  const spec = {
    ...size,
    layer: [
      {
        data: { values },
        mark: { type: 'line', aria: false, strokeWidth: 1.6, stroke: INK.text },
        encoding: {
          x: {
            field: 'time',
            type: 'quantitative',
            axis: { title: 'time (s)', grid: false },
            scale: { nice: false },
          },
          y: { field: 'height', type: 'quantitative', axis: { title: 'height above rest (mm)' } },
        },
      },
      ...(Number.isNaN(steady) ? [] : [rule(steady, [4, 3])]),
      // a ceiling far above would flatten the curve
      ...(ceiling < 1.6 * highest ? [rule(ceiling, [])] : []),
    ],
  };
  const end = values.at(-1)?.time ?? 0;
  const alt = `Height over ${Number(end.toPrecision(3))} s; at most ${Number(highest.toPrecision(3))} mm.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
