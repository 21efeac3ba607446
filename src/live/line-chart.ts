import { FONT, INK } from '../report/charts/palette.ts';
import { html, type Markup } from '../report/text/html.ts';

/** A chart small and quick enough to be drawn anew for every step of a drag. */
export interface LineChart {
  /** What it shows, for those who do not see it. */
  readonly words: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly curves: readonly Curve[];
  /** Upright lines with a word at their upper end. */
  readonly marks: readonly { readonly at: number; readonly text: string }[];
  /** Ringed. */
  readonly ring: Point | null;
}

export interface Axis {
  readonly title: string;
  readonly low: number;
  readonly high: number;
  readonly spacing: 'linear' | 'log';
  readonly ticks: readonly { readonly at: number; readonly text: string }[];
}

export interface Curve {
  readonly points: readonly Point[];
  readonly ink: string;
  readonly dash?: string;
}

export type Point = readonly [x: number, y: number];

const WIDTH = 460;
const HEIGHT = 250;
const MARGIN = { left: 54, right: 14, top: 34, bottom: 42 };
const RING = 6;
/** Words beside each other need this much, px. */
const WORD_ROOM = 92;
const SIZE = 13;

export function lineChart({ words, x, y, curves, marks, ring }: LineChart): string {
  const placeX = place(x, MARGIN.left, WIDTH - MARGIN.right);
  const placeY = place(y, HEIGHT - MARGIN.bottom, MARGIN.top);
  const bottom = HEIGHT - MARGIN.bottom;
  const grid = [
    x.ticks.map(
      ({ at, text }) =>
        html`<path d="M${px(placeX(at))} ${bottom}v5" stroke="${INK.text}"/><text x="${px(placeX(at))}" y="${bottom + 18}" text-anchor="middle" fill="${INK.text}">${text}</text>`,
    ),
    y.ticks.map(
      ({ at, text }) =>
        html`<path d="M${MARGIN.left} ${px(placeY(at))}H${WIDTH - MARGIN.right}" stroke="${INK.rule}"/><text x="${MARGIN.left - 7}" y="${px(placeY(at) + 4)}" text-anchor="end" fill="${INK.text}">${text}</text>`,
    ),
  ];
  const shown = marks.filter(({ at }) => at >= x.low && at <= x.high).sort((a, b) => a.at - b.at);
  return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${words}" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="${FONT}" font-size="${SIZE}"><rect width="${WIDTH}" height="${HEIGHT}" fill="${INK.paper}"/>${grid}<path d="M${MARGIN.left} ${MARGIN.top}V${bottom}H${WIDTH - MARGIN.right}" fill="none" stroke="${INK.text}"/>${markLines(shown, placeX, bottom)}${curves.map((curve) => curveMarkup(curve, placeX, placeY))}${ring === null ? null : ringMarkup(ring, placeX, placeY)}<text x="${(MARGIN.left + WIDTH) / 2}" y="${HEIGHT - 6}" text-anchor="middle" fill="${INK.text}">${x.title}</text><text x="4" y="14" fill="${INK.text}">${y.title}</text></svg>`
    .source;
}

type Place = (value: number) => number;

function place({ low, high, spacing }: Axis, from: number, to: number): Place {
  const scale = spacing === 'log' ? Math.log : (value: number) => value;
  const [a, b] = [scale(low), scale(high)];
  return (value) => from + (to - from) * Math.min(1, Math.max(0, (scale(value) - a) / (b - a)));
}

/** A line breaks where there is nothing. */
function curveMarkup({ points, ink, dash }: Curve, placeX: Place, placeY: Place): Markup {
  let pen = 'M';
  const path = points.map(([x, y]) => {
    if (!Number.isFinite(x) || !Number.isFinite(y)) {
      pen = 'M';
      return '';
    }
    const step = `${pen}${px(placeX(x))} ${px(placeY(y))}`;
    pen = 'L';
    return step;
  });
  const dashed = dash === undefined ? null : html` stroke-dasharray="${dash}"`;
  return html`<path d="${path.join('')}" fill="none" stroke="${ink}" stroke-width="2.5" stroke-linejoin="round"${dashed}/>`;
}

function ringMarkup([x, y]: Point, placeX: Place, placeY: Place): Markup | null {
  if (!Number.isFinite(x) || !Number.isFinite(y)) return null;
  return html`<circle cx="${px(placeX(x))}" cy="${px(placeY(y))}" r="${RING}" fill="${INK.paper}" stroke="${INK.second}" stroke-width="3"/>`;
}

/** Words of marks close together stand in two rows. */
function markLines(marks: LineChart['marks'], placeX: Place, bottom: number): Markup[] {
  let before = Number.NEGATIVE_INFINITY;
  let row = 0;
  return marks.map(({ at, text }) => {
    const x = placeX(at);
    row = x - before < WORD_ROOM ? 1 - row : 0;
    before = x;
    const isRight = x > WIDTH - WORD_ROOM;
    const y = MARGIN.top + 12 + 16 * row;
    return html`<path d="M${px(x)} ${MARGIN.top}V${bottom}" stroke="${INK.quiet}" stroke-dasharray="4 3"/><text x="${px(isRight ? x - 5 : x + 5)}" y="${y}" text-anchor="${isRight ? 'end' : 'start'}" fill="${INK.quiet}" stroke="${INK.paper}" stroke-width="3" paint-order="stroke">${text}</text>`;
  });
}

function px(value: number): number {
  return Math.round(value * 10) / 10;
}

/** Round steps from 0 on. */
export function linearAxis(title: string, high: number): Axis {
  const power = 10 ** Math.floor(Math.log10(high));
  const step =
    [0.1, 0.2, 0.25, 0.5, 1, 2].map((each) => each * power).find((each) => high / each <= 6.001) ?? 2 * power;
  const count = Math.floor(high / step + 1e-9);
  const ticks = Array.from({ length: count + 1 }, (_, i) => {
    const at = Number((i * step).toPrecision(6));
    return { at, text: String(at) };
  });
  return { title, low: 0, high, spacing: 'linear', ticks };
}
