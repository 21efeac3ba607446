import type { TopLevelSpec } from 'vega-lite';
import { toUnit, UNITS } from '../../model/units.ts';
import { measure } from '../../text/significant.ts';
import { CURVES, INK, TEXT_SIZE } from './palette.ts';
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
  /** Of the insulation; NaN where not known. */
  readonly thermalClass: number;
  /** What happens on the way, in a word or two; null: that the thermal class is reached. */
  readonly events: readonly { readonly time: number; readonly label: string | null }[];
}

const LINES = ['hottest place', 'winding, mean', 'plate'] as const;
/** Beyond its thermal class nothing of this is to be seen on a rig. */
const FADED = 0.3;
/** The picture ends at so many times the last thing that happens: hours of a steady coil hide its first minutes. */
const AFTER = 4;
/** s: longer courses are drawn in hours. */
const HOURS_FROM = 4 * 3600;
/** Least change of height that is worth a panel, of the height at first. */
const SINKS = 0.01;

/** Until when a picture shows it, s. */
export function shownUntil({ moments, events }: Pick<WarmCurve, 'moments' | 'events'>): number {
  const last = moments.at(-1)!.time;
  const happens = Math.max(0, ...events.map(({ time }) => time));
  return happens > 0 ? Math.min(last, AFTER * happens) : last;
}

/** Whether its height changes, and so has a panel. */
export function sinks({ moments, floats }: Pick<WarmCurve, 'moments' | 'floats'>): boolean {
  const first = moments[0]!.height;
  return floats && moments.some(({ height }) => Math.abs(height - first) > SINKS * first);
}

/** Temperatures over time with the thermal class, faded beyond it, and below them the height. */
export async function warmChart(curve: WarmCurve, size = { width: 590, height: 200 }): Promise<string> {
  const { events, thermalClass } = curve;
  const until = shownUntil(curve);
  const moments = curve.moments.filter(({ time }) => time <= until);
  const [unit, perUnit] = until > HOURS_FROM ? ['h', 3600] : ['min', 60];
  const celsius = (si: number) => toUnit(si, UNITS.degC);
  const known = LINES.filter((_, i) =>
    moments.some(({ hottest, mean, plate }) => !Number.isNaN([hottest, mean, plate][i]!)),
  );
  const failing = events.find(({ label }) => label === null)?.time ?? Number.POSITIVE_INFINITY;
  const points = moments.flatMap(({ time, mean, hottest, plate, height }) =>
    [hottest, mean, plate]
      .map((value, i) => ({
        time,
        at: time / perUnit,
        line: LINES[i]!,
        celsius: celsius(value),
        height: height * UNITS.mm.scale,
      }))
      .filter((point) => Number.isFinite(point.celsius)),
  );
  // the last moment before is the first of what is faded, so that nothing is missing between
  const lastSound = Math.max(...moments.filter(({ time }) => time <= failing).map(({ time }) => time));
  const sound = points.filter(({ time }) => time <= lastSound);
  const beyond = points.filter(({ time }) => time >= lastSound && lastSound < until);
  const hasHeight = sinks(curve);
  const x = (title: string | null) => ({
    field: 'at',
    type: 'quantitative',
    axis: { title, grid: false, tickCount: size.width / 60 },
    scale: { domain: [0, until / perUnit], nice: false },
  });
  const scale = (what: 'ink' | 'dash') => ({
    field: 'line',
    type: 'nominal',
    scale: { domain: known, range: known.map((line) => CURVES[LINES.indexOf(line)]![what]) },
    legend: LEGEND,
  });
  const line = (values: readonly object[], opacity: number, encoding: object, more: object = {}) => ({
    data: { values },
    mark: { type: 'line', aria: false, strokeWidth: 1.8, opacity, ...more },
    encoding,
  });
  const temperature = {
    x: x(hasHeight ? null : `time (${unit})`),
    y: { field: 'celsius', type: 'quantitative', axis: { title: 'temperature (°C)' } },
  };
  const drawn = { ...temperature, color: scale('ink'), strokeDash: scale('dash') };
  const temperatures = {
    ...size,
    layer: filled([
      line(sound, 1, drawn),
      line(beyond, FADED, drawn),
      ...classLayers(thermalClass, temperature, sound.concat(beyond)),
      ...eventLayers(
        events.filter(({ time }) => time <= until),
        temperature,
        perUnit,
      ),
    ]),
  };
  const height = {
    x: x(`time (${unit})`),
    y: { field: 'height', type: 'quantitative', axis: { title: 'height (mm)', tickCount: 4 } },
  };
  const one = (values: typeof points) => values.filter((point) => point.line === LINES[0]);
  const ink = { stroke: CURVES[0]!.ink };
  const heights = {
    ...size,
    height: 90,
    layer: filled([line(one(sound), 1, height, ink), line(one(beyond), FADED, height, ink)]),
  };
  const last = moments.at(-1)!;
  const alt = `Temperatures over ${Number((until / perUnit).toPrecision(2))} ${unit}: hottest place ${Math.round(celsius(last.hottest))} °C at the end.`;
  const spec = hasHeight ? { vconcat: [temperatures, heights] } : temperatures;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

/** A layer without data leaves the axes without an extent. */
function filled<Layer extends { readonly data: { readonly values: readonly unknown[] } }>(
  layers: readonly Layer[],
): Layer[] {
  return layers.filter(({ data }) => data.values.length > 0);
}

/** Its strokes are long enough for two dashes. */
const LEGEND = {
  title: null,
  orient: 'top',
  direction: 'horizontal',
  symbolOpacity: 1,
  symbolSize: 700,
  symbolStrokeWidth: 1.8,
};

const TEXT = { type: 'text', aria: false, color: INK.quiet, fontSize: TEXT_SIZE.label };
const RULE = { type: 'rule', aria: false, stroke: INK.heat, strokeWidth: 1.2, strokeDash: [5, 3] };

interface Axes {
  readonly x: object;
  readonly y: object;
}

/** Where the hottest place comes near it. */
function classLayers(limit: number, { y }: Axes, points: readonly { readonly celsius: number }[]) {
  const celsius = toUnit(limit, UNITS.degC);
  const isNear = points.some((point) => point.celsius > 0.6 * celsius);
  const data = { values: isNear ? [{ celsius, text: `thermal class ${measure(limit, UNITS.degC)}` }] : [] };
  return [
    { data, mark: RULE, encoding: { y } },
    {
      data,
      mark: { ...TEXT, align: 'right', dx: -2, dy: 9 },
      encoding: { y, x: { value: 'width' }, text: { field: 'text' } },
    },
  ];
}

/** What happens besides, each at its time. */
function eventLayers(events: WarmCurve['events'], { x }: Axes, perUnit: number) {
  const values = events.flatMap(({ time, label }) => (label === null ? [] : [{ at: time / perUnit, label }]));
  return [
    { data: { values }, mark: { ...RULE, stroke: INK.quiet }, encoding: { x } },
    {
      data: { values },
      mark: { ...TEXT, align: 'left', dx: 3, dy: 8 },
      encoding: { x, y: { value: 0 }, text: { field: 'label' } },
    },
  ];
}
