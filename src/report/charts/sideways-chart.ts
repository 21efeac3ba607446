import type { TopLevelSpec } from 'vega-lite';
import { UNITS } from '../../model/units.ts';
import type { SidewaysPoint } from '../../rig/sideways-curve.ts';
import { curveEncodings, MARK, markedPoints, RINGS } from './design-curves.ts';
import { INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** One rig: what pushes it outward at which shift. */
export interface SidewaysCurve {
  readonly name: string;
  /** In order of shift, from the axis on. */
  readonly curve: readonly SidewaysPoint[];
  /** Where the study looks at it. */
  readonly at: SidewaysPoint | null;
}

/** Outward force over weight against shift; below the line it is driven back to the middle. */
export function sidewaysChart(
  rigs: readonly SidewaysCurve[],
  size = { width: 590, height: 260 },
): Promise<string> {
  const names = rigs.map(({ name }) => name);
  const place = ({ shift, overWeight }: SidewaysPoint, i: number) => ({
    shift: shift * UNITS.mm.scale,
    overWeight,
    design: names[i]!,
  });
  const curves = rigs.map(({ curve }, i) => curve.map((point) => place(point, i)));
  const marks = curves.flatMap(markedPoints);
  const rings = rigs.flatMap(({ at }, i) => (at === null ? [] : [place(at, i)]));
  const encodings = curveEncodings(names, 40);
  const spec = {
    ...size,
    encoding: {
      x: {
        field: 'shift',
        type: 'quantitative',
        axis: { title: 'distance from the axis (mm)', grid: false, tickCount: 9 },
        scale: { nice: false },
      },
      y: { field: 'overWeight', type: 'quantitative', axis: { title: 'outward force over weight' } },
    },
    layer: [
      {
        data: { values: [{ overWeight: 0 }] },
        mark: { type: 'rule', aria: false, stroke: INK.text, strokeWidth: 1 },
        encoding: { x: null, y: { field: 'overWeight', type: 'quantitative' } },
      },
      {
        data: { values: curves.flat() },
        mark: { type: 'line', aria: false, strokeWidth: 1.8 },
        encoding: encodings.line,
      },
      {
        data: { values: marks },
        mark: MARK,
        encoding: encodings.mark,
      },
      // a layer without a value has no extent, and Vega complains
      ...(rings.length === 0
        ? []
        : [
            {
              data: { values: rings },
              mark: RINGS,
            },
          ]),
    ],
  };
  const alt = `Outward force over weight against the distance from the axis of ${names.join('; ')}. Below zero it is driven back to the middle. Rings mark where the study looks at them.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
