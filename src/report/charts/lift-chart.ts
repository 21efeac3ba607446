import type { TopLevelSpec } from 'vega-lite';
import { UNITS } from '../../model/units.ts';
import type { LiftPoint } from '../report-input.ts';
import { domainOf } from './axis-title.ts';
import { curveEncodings, MARK, markedPoints, RINGS } from './design-curves.ts';
import { renderChart } from './render-chart.ts';

/** One rig: how high it floats at which current. */
export interface LiftCurve {
  readonly name: string;
  /** In order of current; rises somewhere. */
  readonly lift: readonly LiftPoint[];
  /** Where the study runs it; null where it has no operating point. */
  readonly operating: LiftPoint | null;
}

/** Beyond what the supply gives. */
const FADED = 0.3;

/** Height against current, the operating points ringed. */
export async function liftChart(
  rigs: readonly LiftCurve[],
  size = { width: 590, height: 300 },
): Promise<string> {
  const names = rigs.map(({ name }) => name);
  const mm = UNITS.mm.scale;
  const place = ({ current, height, beyond = false }: LiftPoint, i: number) => ({
    current,
    height: height * mm,
    design: names[i]!,
    beyond,
  });
  const curves = rigs.map(({ lift }, i) => fromLiftoff(lift).map((point) => place(point, i)));
  const within = curves.flatMap((points) => points.filter(({ beyond }) => !beyond));
  // from the last point that the supply gives
  const beyond = curves.flatMap((points) => {
    const first = points.findIndex((point) => point.beyond);
    return first < 0 ? [] : points.slice(Math.max(0, first - 1));
  });
  const marks = curves.flatMap((points) => {
    const rising = points.filter((point) => point.height > 0 && !point.beyond);
    return markedPoints(rising);
  });
  const operating = rigs.flatMap((rig, i) => (rig.operating === null ? [] : [place(rig.operating, i)]));
  const encodings = curveEncodings(names, 18);
  const spec = {
    ...size,
    encoding: {
      x: {
        field: 'current',
        type: 'quantitative',
        axis: { title: 'current (A rms)', grid: false, tickCount: 9 },
        scale: { domain: domainOf(curves.flat().map(({ current }) => current)), nice: false },
      },
      y: { field: 'height', type: 'quantitative', axis: { title: 'height above rest (mm)' } },
    },
    // a layer without data leaves the axes without an extent: a rig may float beyond the supply only
    layer: [
      {
        data: { values: within },
        mark: { type: 'line', aria: false, strokeWidth: 1.8 },
        encoding: encodings.line,
      },
      {
        data: { values: beyond },
        mark: { type: 'line', aria: false, strokeWidth: 1.8, opacity: FADED },
        encoding: encodings.line,
      },
      {
        data: { values: marks },
        mark: MARK,
        encoding: encodings.mark,
      },
      {
        data: { values: operating },
        mark: RINGS,
      },
    ].filter(({ data }) => data.values.length > 0),
  };
  const alt = `Height against current of ${names.join('; ')}. Rings mark the currents at which the study runs them.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

/** From the last current at which it rests. */
function fromLiftoff(lift: readonly LiftPoint[]): readonly LiftPoint[] {
  return lift.slice(Math.max(0, lift.findIndex(({ height }) => height > 0) - 1));
}
