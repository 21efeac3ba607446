import type { TopLevelSpec } from 'vega-lite';
import { UNITS } from '../../model/units.ts';
import { shortText } from '../../text/clean-text.ts';
import type { FixedBound, LiftBounds } from '../fixed-bounds.ts';
import type { LiftPoint } from '../report-input.ts';
import { domainOf } from './axis-title.ts';
import { curveEncodings, MARK, markedPoints, RINGS } from './design-curves.ts';
import { CURVES, INK, TEXT_SIZE } from './palette.ts';
import { renderChart } from './render-chart.ts';

/** One rig: how high it floats at which current. */
export interface LiftCurve {
  readonly name: string;
  /** In order of current; rises somewhere. */
  readonly lift: readonly LiftPoint[];
  /** Where the study runs it; null where it has no operating point. */
  readonly operating: LiftPoint | null;
  /** From this current on, A rms, it chatters until it lifts off; NaN where not known. */
  readonly chatter: number;
}

/** Beyond what the supply gives. */
const FADED = 0.3;
/** Below the axis, a line a curve, px. */
const CHATTER = { line: 6, stroke: 3.5 };
/** A bound farther off than this, in widths of what is drawn, would squeeze the curves. */
const REACH = 0.15;

type Placed = LiftPoint & { readonly design: string };

/** Height against current: operating points ringed, chatter, lift-off, ends of the supply and limits of the study marked. */
export async function liftChart(
  rigs: readonly LiftCurve[],
  bounds: LiftBounds = { current: [], height: [] },
  size = { width: 590, height: 300 },
): Promise<string> {
  const names = rigs.map(({ name }) => name);
  const mm = UNITS.mm.scale;
  const place = (point: LiftPoint, i: number): Placed => ({
    beyond: false,
    ...point,
    height: point.height * mm,
    design: names[i]!,
  });
  const curves = rigs.map(({ lift }, i) => fromLiftoff(lift).map((point) => place(point, i)));
  const within = curves.flatMap((points) => points.filter(({ beyond }) => !beyond));
  // from the last point that the supply gives
  const beyond = curves.flatMap((points) => {
    const first = points.findIndex((point) => point.beyond);
    return first < 0 ? [] : points.slice(Math.max(0, first - 1));
  });
  const marks = curves.flatMap((points) =>
    markedPoints(points.filter((point) => point.height > 0 && !point.beyond)),
  );
  const ends = curves.flat().filter(({ atLimit }) => atLimit);
  const operating = rigs.flatMap((rig, i) => (rig.operating === null ? [] : [place(rig.operating, i)]));
  const chatters = rigs.flatMap(({ chatter, name }, i) => {
    const liftoff = curves[i]![0]!;
    return liftoff.height === 0 && chatter < liftoff.current
      ? [{ design: name, from: chatter, to: liftoff.current, i }]
      : [];
  });
  const across = domainOf([
    ...curves.flat().map(({ current }) => current),
    ...chatters.map(({ from }) => from),
  ]);
  const top = Math.max(...curves.flat().map(({ height }) => height));
  const shown = {
    current: bounds.current.filter(({ value }) => value >= across[0] && value <= across[1]),
    height: bounds.height
      .map(({ value, text }) => ({ text, value: value * mm }))
      .filter(({ value }) => value >= 0 && value <= (1 + REACH) * top),
  };
  const encodings = curveEncodings(names, 18);
  const x = {
    field: 'current',
    type: 'quantitative',
    axis: {
      title: 'current (A rms)',
      grid: false,
      tickCount: 9,
      offset: chatters.length === 0 ? 0 : CHATTER.line * rigs.length + 4,
    },
    scale: { domain: across, nice: false },
  };
  const y = { field: 'height', type: 'quantitative', axis: { title: 'height above rest (mm)' } };
  const lines = (values: readonly Placed[], more: object = {}) => ({
    data: { values },
    mark: { type: 'line', aria: false, strokeWidth: 1.8, ...more },
    encoding: { x, y, ...encodings.line },
  });
  const spec = {
    ...size,
    // a layer without data leaves the axes without an extent: a rig may float beyond the supply only
    layer: [
      lines(within),
      lines(beyond, { opacity: FADED }),
      { data: { values: marks }, mark: MARK, encoding: { x, y, ...encodings.mark } },
      ...chatters.map(({ i, ...values }) => ({
        data: { values: [values] },
        mark: {
          type: 'rule',
          aria: false,
          stroke: CURVES[i]!.ink,
          strokeWidth: CHATTER.stroke,
          yOffset: CHATTER.line * (i + 1) - 1,
        },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' }, y: { datum: 0 } },
      })),
      ...boundLayers(shown, { x, y }),
      {
        data: { values: ends },
        mark: { type: 'tick', aria: false, orient: 'vertical', size: 18, thickness: 3, opacity: 1 },
        encoding: { x, y, color: encodings.line.color },
      },
      { data: { values: operating }, mark: RINGS, encoding: { x, y } },
    ].filter(({ data }) => data.values.length > 0),
  };
  const alt = `Height against current of ${names.join('; ')}. Rings mark the currents at which the study runs them.`;
  return renderChart(spec as unknown as TopLevelSpec, alt);
}

const LONGEST = 40;

/** A dashed line a limit, its text beside it. */
function boundLayers({ current, height }: LiftBounds, { x, y }: { readonly x: object; readonly y: object }) {
  const rule = { type: 'rule', aria: false, stroke: INK.quiet, strokeWidth: 1, strokeDash: [5, 3] };
  const text = { type: 'text', aria: false, color: INK.quiet, fontSize: TEXT_SIZE.label, dy: -9 };
  const named = (bounds: readonly FixedBound[]) =>
    bounds.map(({ value, text }) => ({ value, text: shortText(text, LONGEST) }));
  const heights = { values: named(height) };
  const currents = { values: named(current) };
  const label = { text: { field: 'text' } };
  return [
    { data: heights, mark: rule, encoding: { y: { ...y, field: 'value' } } },
    // lines of the grid end before the letters
    ...[{ stroke: INK.paper, strokeWidth: 4 }, {}].map((more) => ({
      data: heights,
      mark: { ...text, align: 'right', dx: -3, ...more },
      encoding: { y: { ...y, field: 'value' }, x: { value: 'width' }, ...label },
    })),
    { data: currents, mark: rule, encoding: { x: { ...x, field: 'value' } } },
    {
      data: currents,
      mark: { ...text, align: 'right', dx: -3, dy: 10 },
      encoding: { x: { ...x, field: 'value' }, y: { value: 0 }, ...label },
    },
  ];
}

/** From the last current at which it rests. */
function fromLiftoff(lift: readonly LiftPoint[]): readonly LiftPoint[] {
  return lift.slice(Math.max(0, lift.findIndex(({ height }) => height > 0) - 1));
}
