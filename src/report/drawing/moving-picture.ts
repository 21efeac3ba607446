import { FONT, INK, TEXT_SIZE } from '../charts/palette.ts';
import type { DesignMotion } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { drawingScale } from './drawing-scale.ts';
import type { RigOutline } from './rig-outline.ts';
import { label, line, px, WIDTH } from './strokes.ts';

const MARGIN = { side: 24, top: 24, bottom: 14 };
/** Room above the rig for its jump; what jumps higher leaves the picture, px. */
const MOST_TRAVEL = 260;
/** Thinner than this nothing is drawn, px. */
const THINNEST = 1.5;
/** Pictures a second of the motion: ten of a bounce of 5 Hz. */
const FRAMES = 50;

/**
 * A rig switched on, to the scale of its cross-section and at its own speed. It stands still where it comes to float until it
 * is clicked, then plays once: an animation of SVG itself, without script.
 * @param id of the picture on its page, without a hyphen: SMIL takes that for a minus
 */
export function movingPicture(rig: RigOutline, motion: DesignMotion, id: string, title: string): string {
  const { plate, windings, coilHeight, standoff } = rig;
  const { isWide, reach, depth, scale } = drawingScale(rig);
  const frames = framesOf(motion);
  const seconds = motion.time.at(-1) ?? 0;
  const highest = Math.min(Math.max(...frames, motion.steadyHeight) * scale, MOST_TRAVEL);
  const edge = isWide ? reach : plate.radius;
  const thick = Math.max(THINNEST, depth * scale);
  const tall = coilHeight * scale;
  const lower = plate.isAbove ? tall : thick;
  const upper = plate.isAbove ? thick : tall;
  const height = px(MARGIN.top + highest + upper + standoff * scale + lower + MARGIN.bottom);
  const floor = height - MARGIN.bottom;
  const axis = WIDTH / 2;
  const x = (r: number) => axis + r * scale;
  // what lies below stands; what lies above rests on its standoff and moves up
  const restsAt = floor - lower - standoff * scale;
  const plateBox = (top: number) =>
    both(plate.innerRadius, edge, (from, width) =>
      box(x(0), from * scale, width * scale, top, thick, plate.layers[0]!.ink),
    );
  const coilBoxes = (face: number, up: number) =>
    windings.flatMap(({ innerRadius, outerRadius, height: own, offset, ink }) => {
      const top = up < 0 ? face - (offset + own) * scale : face + offset * scale;
      return both(innerRadius, outerRadius, (from, width) =>
        box(x(0), from * scale, width * scale, top, own * scale, ink),
      );
    });
  const standing = plate.isAbove ? coilBoxes(floor - lower, 1) : plateBox(floor - thick);
  const moving = plate.isAbove ? plateBox(restsAt - thick) : coilBoxes(restsAt, -1);
  const still = px(motion.steadyHeight * scale);
  const values = frames.map((frame) => `0 ${-px(frame * scale)}`).join(';');
  const ceiling = restsAt - upper - motion.headroom * scale;
  const alt = `${title}, switched on: it jumps to ${millimetres(Math.max(...frames))} and comes to float ${millimetres(motion.steadyHeight)} above rest.`;
  return html`<svg xmlns="http://www.w3.org/2000/svg" id="${id}" class="moving" role="img" aria-label="${alt}" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" font-family="${FONT}" font-size="${TEXT_SIZE.label}"><rect width="${WIDTH}" height="${height}" fill="${INK.paper}"/>${line(axis, MARGIN.top - 6, axis, floor, INK.quiet, '12 3 2 3')}${ceiling > MARGIN.top ? line(MARGIN.side, ceiling, WIDTH - MARGIN.side, ceiling, INK.text) : null}<g>${standing}</g><g transform="translate(0 ${-still})">${moving}<animateTransform attributeName="transform" type="translate" begin="${id}.click" dur="${px(seconds)}s" values="${values}"/></g>${label(4, 14, title, 'start')}</svg>`
    .source;
}

function millimetres(m: number): string {
  return `${Number((m * 1e3).toPrecision(3))} mm`;
}

/** Left and right of the axis. */
function both(inner: number, outer: number, draw: (from: number, width: number) => Markup): Markup[] {
  return [draw(inner, outer - inner), draw(-outer, outer - inner)];
}

function box(axis: number, from: number, width: number, top: number, tall: number, ink: string): Markup {
  return html`<rect x="${px(axis + from)}" y="${px(top)}" width="${px(width)}" height="${px(tall)}" fill="${ink}"/>`;
}

/** Heights at even times, so many a second: means of the samples between, without the hum. */
function framesOf({ time, height }: DesignMotion): number[] {
  const seconds = time.at(-1) ?? 0;
  const frames = Math.max(2, Math.round(seconds * FRAMES));
  const each = height.length / frames;
  return Array.from({ length: frames }, (_, i) => {
    const part = height.slice(
      Math.floor(i * each),
      Math.max(Math.floor(i * each) + 1, Math.floor((i + 1) * each)),
    );
    return part.reduce((sum, value) => sum + value, 0) / part.length;
  });
}
