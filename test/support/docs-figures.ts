import type { TopLevelSpec } from 'vega-lite';
import { Q } from '../../src/model/quantities.ts';
import { column } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { toUnit, UNITS } from '../../src/model/units.ts';
import { curveEncodings } from '../../src/report/charts/design-curves.ts';
import { renderChart } from '../../src/report/charts/render-chart.ts';
import { evaluated, studyFrom } from './finished-study.ts';

/** Figures of the docs that no study draws by itself. */
export const DOCS_FIGURES: Readonly<Record<string, () => Promise<string>>> = {
  'heat-over-gap.svg': heatOverGap,
  'lift-over-plate-radius.svg': liftOverPlateRadius,
};

interface Point {
  readonly x: number;
  readonly y: number;
  readonly design: string;
}

/** The foyer table's coil clamped at so many gaps. */
function clamped(conductivity: string): Study {
  return studyFrom(`study: Steady temperatures of a clamped coil
rig:
  floats: nothing
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm, radius: 350 mm}
  standoff: {thickness: 2 mm${conductivity}}
  supply: {frequency: 50 Hz}
  surroundings: {temperature: 22 degC}
drive: {current: 8 A}
vary:
  standoff: {from: 0.5 mm, to: 20 mm, count: 79}
objectives: [{minimise: coil_temperature}]
plan: {grid: {}}
`);
}

async function heatOverGap(): Promise<string> {
  const kinds = [
    ['air between feet', ''],
    ['plastic sheet', ', conductivity: 0.2 W/(m K)'],
  ] as const;
  const points = kinds.flatMap(([name, conductivity]) =>
    evaluated(clamped(conductivity)).flatMap((batch) => {
      const temperature = (q: number) => column(batch, batch.quantities, q);
      const gap = column(batch, batch.quantities, Q.gap);
      return [
        ['mean', temperature(Q.coil_temperature)] as const,
        ['hottest', temperature(Q.coil_hot_spot)] as const,
      ].flatMap(([what, values]) =>
        Array.from(values, (value, i) => ({
          x: toUnit(gap[i]!, UNITS.mm),
          y: toUnit(value, UNITS.degC),
          design: `${name}, ${what}`,
        })),
      );
    }),
  );
  return curves(
    points,
    ['gap (mm)', 'temperature (°C)'],
    'Steady temperature of a clamped coil at 8 A against the gap from 0.5 to 20 mm, over feet and over a sheet of plastic: smooth lines without a step.',
  );
}

async function liftOverPlateRadius(): Promise<string> {
  const study = studyFrom(new URL('../../studies/plate-radius.yaml', import.meta.url));
  const [ratio, lift] = ['radius_over_coil', 'lift_over_weight'].map((wanted) =>
    study.derive.findIndex(({ name }) => name === wanted),
  );
  const points = evaluated(study).flatMap((batch) =>
    Array.from({ length: batch.count }, (_, i) => ({
      x: column(batch, batch.derived, ratio!)[i]!,
      y: column(batch, batch.derived, lift!)[i]!,
      design: `${toUnit(batch.values[i * study.vary.length]!, UNITS.mm)} mm thick`,
    })),
  );
  return curves(
    points,
    ['plate radius over coil radius', 'lift over weight'],
    'Lift over weight against plate radius over coil radius, of a thick and a thin plate: rises steeply to a flat top at 1.0 to 1.1, then settles.',
  );
}

/** Lines named by `design`, told apart as those of a report. */
function curves(points: readonly Point[], [x, y]: readonly [string, string], alt: string): Promise<string> {
  const names = [...new Set(points.map(({ design }) => design))];
  const spec = {
    width: 590,
    height: 300,
    data: { values: points },
    mark: { type: 'line', aria: false, strokeWidth: 1.8 },
    encoding: {
      x: {
        field: 'x',
        type: 'quantitative',
        axis: { title: x, grid: false },
        scale: { nice: false, zero: false },
      },
      y: { field: 'y', type: 'quantitative', axis: { title: y } },
      ...curveEncodings(names, 18).line,
    },
  };
  return renderChart(spec as unknown as TopLevelSpec, alt);
}
