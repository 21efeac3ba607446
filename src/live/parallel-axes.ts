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

const WIDTH = 940;
const HEIGHT = 300;
const MARGIN = { left: 70, right: 90, top: 44, bottom: 14 };
const BOTTOM = HEIGHT - MARGIN.bottom;
/** A box drawn this close to an axis is about that axis, px. */
const NEAR = 24;

/** What varies as upright axes beside each other; a design is a line through its values. */
export function parallelAxes(inputs: readonly FrontAxis[]): DesignChart {
  const scales = inputs.map((input) => axisScale(input));
  const step = (WIDTH - MARGIN.left - MARGIN.right) / (scales.length - 1);
  const placeX = (axis: number) => MARGIN.left + step * axis;
  const placeY = (share: number) => BOTTOM - (BOTTOM - MARGIN.top) * share;
  const line = (row: number): Place[] =>
    scales.map((scale, axis) => [placeX(axis), placeY(scale.share(row))] as const);
  const path = (rows: readonly number[]) =>
    rows
      .map(
        (row) =>
          `M${line(row)
            .map(([left, top]) => `${px(left)} ${px(top)}`)
            .join('L')}`,
      )
      .join('');

  function markup(found: FoundFront, marks: Marks): string {
    const one = (row: number, ink: string, width: number) =>
      row < 0
        ? null
        : html`<path d="${path([row])}" fill="none" stroke="${ink}" stroke-width="${width}" stroke-linejoin="round"/>`;
    return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="What varies, side by side: a line for each of ${found.feasible.length} designs." viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="${FONT}" font-size="13"><rect width="${WIDTH}" height="${HEIGHT}" fill="${INK.paper}"/>${byRank(
      found,
      marks,
    ).map(
      ({ ink, line: width, rows }) =>
        html`<path d="${path(rows)}" fill="none" stroke="${ink}" stroke-width="${width}" stroke-opacity="0.7" stroke-linejoin="round"/>`,
    )}${one(marks.loaded, INK.second, 3)}${one(marks.looked, INK.text, 3)}${scales.map(
      ({ title, ticks }, axis) => {
        const x = px(placeX(axis));
        // long titles beside each other stand in two rows
        const top = axis % 2 === 0 ? 14 : 32;
        return html`<path d="M${x} ${MARGIN.top}V${BOTTOM}" stroke="${INK.text}"/><text x="${x}" y="${top}" text-anchor="${axis === 0 ? 'start' : axis === scales.length - 1 ? 'end' : 'middle'}"${axis === 0 ? html` dx="-60"` : axis === scales.length - 1 ? html` dx="80"` : null} fill="${INK.text}">${title}</text>${ticks.map(
          ({ share, text }) =>
            html`<path d="M${x} ${px(placeY(share))}h5" stroke="${INK.text}"/><text x="${x + 8}" y="${px(placeY(share) + 4)}" fill="${INK.text}" stroke="${INK.paper}" stroke-width="3" paint-order="stroke">${text}</text>`,
        )}`;
      },
    )}${brushMarkup(marks.brush)}</svg>`.source;
  }

  return {
    width: WIDTH,
    height: HEIGHT,
    markup,
    distance(row, [left, top]) {
      const at = Math.min(scales.length - 2, Math.max(0, Math.floor((left - MARGIN.left) / step)));
      const points = line(row);
      const share = Math.min(1, Math.max(0, (left - placeX(at)) / step));
      const own = points[at]![1] * (1 - share) + points[at + 1]![1] * share;
      return Math.hypot(top - own, Math.max(0, MARGIN.left - left, left - placeX(scales.length - 1)));
    },
    takes(row, box: Box) {
      const { left, right, top, bottom } = edgesOf(box);
      const about = line(row).filter(([x]) => x >= left - NEAR && x <= right + NEAR);
      return about.length > 0 && about.every(([, y]) => y >= top && y <= bottom);
    },
    order: (row) => scales[0]!.share(row),
  };
}
