import { FONT, INK } from '../report/charts/palette.ts';
import { html } from '../report/text/html.ts';
import { axisScale } from './axis-scale.ts';
import {
  type Box,
  brushMarkup,
  byRank,
  type DesignChart,
  edgesOf,
  type Marks,
  type Place,
  px,
} from './design-chart.ts';
import type { FoundFront, FrontAxis } from './designs-front.ts';

const WIDTH = 460;
const HEIGHT = 300;
const MARGIN = { left: 62, right: 16, top: 26, bottom: 42 };
const ROUNDING = 1e-9;
const RIGHT = WIDTH - MARGIN.right;
const BOTTOM = HEIGHT - MARGIN.bottom;

/**
 * One column against another.
 * @param rows that the axes have room for; others may lie outside
 */
export function scatterChart(x: FrontAxis, y: FrontAxis, rows: readonly number[]): DesignChart {
  const [across, up] = [axisScale(x, rows), axisScale(y, rows)];
  const placeX = (share: number) => MARGIN.left + 8 + (RIGHT - MARGIN.left - 8) * share;
  const placeY = (share: number) => BOTTOM - 8 - (BOTTOM - MARGIN.top - 8) * share;
  const at = (row: number): Place => [placeX(across.share(row)), placeY(up.share(row))];
  // NaN is not inside
  const isInside = (share: number) => share >= -ROUNDING && share <= 1 + ROUNDING;
  const isKnown = (row: number) => isInside(across.share(row)) && isInside(up.share(row));

  /** A line of no length with round ends is a dot: all of one kind are one path. */
  const dots = (rows: readonly number[]) =>
    rows
      .filter(isKnown)
      .map((row) => {
        const [left, top] = at(row);
        return `M${px(left)} ${px(top)}h0`;
      })
      .join('');
  const ring = (row: number, ink: string, radius: number) => {
    if (row < 0 || !isKnown(row)) return null;
    const [left, top] = at(row);
    return html`<circle cx="${px(left)}" cy="${px(top)}" r="${radius}" fill="none" stroke="${ink}" stroke-width="2.5"/>`;
  };

  function markup(found: FoundFront, marks: Marks): string {
    const ranks = byRank(found, marks);
    return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${up.title} against ${across.title}: ${found.feasible.length} designs, ${found.front.length} on the front." viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="${FONT}" font-size="13"><rect width="${WIDTH}" height="${HEIGHT}" fill="${INK.paper}"/>${up.ticks.map(
      ({ share, text }) =>
        html`<path d="M${MARGIN.left} ${px(placeY(share))}H${RIGHT}" stroke="${INK.rule}"/><text x="${MARGIN.left - 6}" y="${px(placeY(share) + 4)}" text-anchor="end" fill="${INK.text}">${text}</text>`,
    )}${across.ticks.map(
      ({ share, text }) =>
        html`<path d="M${px(placeX(share))} ${BOTTOM}v5" stroke="${INK.text}"/><text x="${px(placeX(share))}" y="${BOTTOM + 18}" text-anchor="middle" fill="${INK.text}">${text}</text>`,
    )}<path d="M${MARGIN.left} ${MARGIN.top}V${BOTTOM}H${RIGHT}" fill="none" stroke="${INK.text}"/>${ranks.map(
      ({ ink, size, rows }) =>
        html`<path d="${dots(rows)}" fill="none" stroke="${ink}" stroke-width="${size}" stroke-linecap="round"/>`,
    )}${ring(marks.loaded, INK.second, 8)}${ring(marks.looked, INK.text, 12)}${brushMarkup(marks.brush)}<text x="4" y="14" fill="${INK.text}">${up.title}</text><text x="${(MARGIN.left + RIGHT) / 2}" y="${HEIGHT - 5}" text-anchor="middle" fill="${INK.text}">${across.title}</text></svg>`
      .source;
  }

  return {
    width: WIDTH,
    height: HEIGHT,
    markup,
    distance(row, [left, top]) {
      if (!isKnown(row)) return Number.POSITIVE_INFINITY;
      const [ownLeft, ownTop] = at(row);
      return Math.hypot(left - ownLeft, top - ownTop);
    },
    takes(row, box: Box) {
      if (!isKnown(row)) return false;
      const { left, right, top, bottom } = edgesOf(box);
      const [ownLeft, ownTop] = at(row);
      return ownLeft >= left && ownLeft <= right && ownTop >= top && ownTop <= bottom;
    },
    order: (row) => across.share(row),
  };
}
