import type { TopLevelSpec } from 'vega-lite';
import { Q } from '../../model/quantities.ts';
import { UNITS } from '../../model/units.ts';
import { letterOf } from '../letters.ts';
import type { ChosenDesign, LiftPoint, ReportInput } from '../report-input.ts';
import { domainOf } from './axis-title.ts';
import { CURVES, INK } from './palette.ts';
import { renderChart } from './render-chart.ts';

const WIDTH = 590;
const HEIGHT = 300;
/** Marks that one curve carries, so that it is known without ink or dash. */
const MARKS = 5;

/** Designs whose height follows their current. */
export function floating({ chosen }: ReportInput): readonly ChosenDesign[] {
  return chosen.filter(({ lift }) => lift.some(({ height }) => height > 0)).slice(0, CURVES.length);
}

/** Height against current of the chosen designs, their operating points ringed; null where nothing floats. */
export async function liftChart(input: ReportInput): Promise<string | null> {
  const { front } = input;
  const designs = floating(input);
  if (designs.length === 0) return null;
  const names = designs.map(
    ({ row, why }) => `${letterOf(input.chosen, row)}: design ${front.designs[row]}, ${why}`,
  );
  const mm = UNITS.mm.scale;
  const curves = designs.map(({ lift }, i) =>
    fromLiftoff(lift).map(({ current, height }) => ({ current, height: height * mm, design: names[i]! })),
  );
  const marks = curves.flatMap((points) => {
    const rising = points.filter(({ height }) => height > 0);
    return Array.from({ length: MARKS }, (_, m) => rising[Math.floor(((m + 0.5) * rising.length) / MARKS)]!);
  });
  const quantity = (q: number, row: number) => front.quantities[q * front.count + row]!;
  const operating = designs.flatMap(({ row }, i) => {
    const current = quantity(Q.current, row);
    const height = quantity(Q.height, row) * mm;
    return Number.isFinite(current + height) ? [{ current, height, design: names[i]! }] : [];
  });
  const legend = {
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
    width: WIDTH,
    height: HEIGHT,
    encoding: {
      x: {
        field: 'current',
        type: 'quantitative',
        axis: { title: 'current (A rms)', grid: false, tickCount: 9 },
        scale: { domain: domainOf(curves.flat().map(({ current }) => current)), nice: false },
      },
      y: { field: 'height', type: 'quantitative', axis: { title: 'height above rest (mm)' } },
    },
    layer: [
      {
        data: { values: curves.flat() },
        mark: { type: 'line', aria: false, strokeWidth: 1.8 },
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
    ],
  };
  const alt = `Height against current of ${designs.length} designs: ${names.join(', ')}. Rings mark the currents at which the study runs them.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

/** From the last current at which it rests. */
function fromLiftoff(lift: readonly LiftPoint[]): readonly LiftPoint[] {
  return lift.slice(Math.max(0, lift.findIndex(({ height }) => height > 0) - 1));
}
