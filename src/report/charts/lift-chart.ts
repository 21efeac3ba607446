import type { TopLevelSpec } from 'vega-lite';
import { UNITS } from '../../model/units.ts';
import type { LiftPoint } from '../report-input.ts';
import { domainOf } from './axis-title.ts';
import { CURVES, INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** Marks that one curve carries, so that it is known without ink or dash. */
const MARKS = 5;

/** One rig: how high it floats at which current. */
export interface LiftCurve {
  readonly name: string;
  /** In order of current; rises somewhere. */
  readonly lift: readonly LiftPoint[];
  /** Where the study runs it; null where it has no operating point. */
  readonly operating: LiftPoint | null;
}

/** More than these cannot be separated. */
export const MOST_CURVES = CURVES.length;

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
    if (rising.length === 0) return [];
    return Array.from({ length: MARKS }, (_, m) => rising[Math.floor(((m + 0.5) * rising.length) / MARKS)]!);
  });
  const operating = rigs.flatMap((rig, i) => (rig.operating === null ? [] : [place(rig.operating, i)]));
  const legend =
    rigs.length === 1
      ? null
      : {
          title: null,
          orient: 'top',
          direction: 'horizontal',
          columns: 2,
          symbolSize: 60,
          columnPadding: 18,
        };
  const scale = (what: 'ink' | 'dash' | 'mark') => ({
    field: 'design',
    type: 'nominal',
    scale: { domain: names, range: CURVES.slice(0, names.length).map((curve) => curve[what]) },
  });
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
        encoding: { color: { ...scale('ink'), legend }, strokeDash: { ...scale('dash'), legend } },
      },
      {
        data: { values: beyond },
        mark: { type: 'line', aria: false, strokeWidth: 1.8, opacity: FADED },
        encoding: { color: { ...scale('ink'), legend }, strokeDash: { ...scale('dash'), legend } },
      },
      {
        data: { values: marks },
        mark: { type: 'point', aria: false, filled: true, size: 44, opacity: 1 },
        encoding: { color: { ...scale('ink'), legend }, shape: { ...scale('mark'), legend } },
      },
      {
        data: { values: operating },
        mark: { type: 'point', aria: false, size: 190, strokeWidth: 1.4, stroke: INK.text, opacity: 1 },
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
