import { FONT, INK, TEXT_SIZE } from '../charts/palette.ts';
import { textWidth } from '../charts/text-width.ts';
import { html, type Markup } from '../text/html.ts';
import { numberText } from '../text/number-text.ts';
import type { RigOutline } from './rig-outline.ts';
import { spreadLabels } from './spread-labels.ts';

const WIDTH = 680;
const MARGIN = { left: 136, right: 24, title: 30, dimensions: 58, bottom: 54 };
/** Room for the rig itself, px. */
const ROOM = { width: WIDTH - MARGIN.left - MARGIN.right, height: 300 };
/** An infinitely wide plate is drawn to this many outer radii, a thick one to this many deep. */
const WIDE = 1.14;
const DEEP = 0.3;
/** Nothing is drawn thinner, px: foil would vanish. */
const THINNEST = 1.5;
/** Wires closer than this are not drawn one by one, px. */
const FINEST_WIRE = 2.8;
const LABEL_SPACING = 16;
const MM = 1e3;

/**
 * A rig cut along its axis, to scale in both directions, with its dimensions. SVG text.
 *
 * @param title what the drawing is of: `Design 12 (knee)`
 */
export function crossSection(rig: RigOutline, title: string): string {
  const { coil, plate, gap } = rig;
  const isWide = !(plate.radius > 0);
  const reach = Math.max(coil.outerRadius, isWide ? coil.outerRadius * WIDE : plate.radius);
  const total = plate.layers.reduce((sum, { thickness }) => sum + thickness, 0);
  const depth = Math.min(total, DEEP * reach);
  const scale = Math.min(ROOM.width / (2 * reach), ROOM.height / (gap + coil.height + depth));
  const axis = MARGIN.left + ROOM.width / 2;
  const stack = (gap + coil.height + depth) * scale;
  const height = MARGIN.title + MARGIN.dimensions + stack + MARGIN.bottom;
  const x = (r: number) => axis + r * scale;
  // z counts from the plate's face toward the coil, which lies above the plate or below it
  const faceY = plate.isAbove
    ? MARGIN.title + depth * scale + 16
    : MARGIN.title + MARGIN.dimensions + (gap + coil.height) * scale;
  const y = (z: number) => faceY + (plate.isAbove ? z : -z) * scale;
  const view: View = { x, y, scale, toward: plate.isAbove ? 1 : -1 };

  const isFoil = depth * scale < THINNEST;
  const plateNotes = [
    plate.layers.map(layerText).join(', '),
    ...(Number.isFinite(plate.loss) ? [`takes ${numberText(plate.loss)} W`] : []),
    ...(isFoil ? ['drawn thicker than it is'] : []),
  ];
  const parts = [
    plateMarkup(rig, view, { isWide, depth, reach }),
    coilMarkup(rig, view),
    line(axis, MARGIN.title + 4, axis, height - MARGIN.bottom + 8, INK.quiet, '12 3 2 3'),
    radiusMarks(rig, view),
    heightMarks(rig, view, depth, total, x(-reach) - 12),
    label(x(-reach), height - 30, `plate: ${plateNotes.join(', ')}`, 'start'),
    scaleBar(reach, view, height - 12),
  ];
  const alt = `${title}, cut along its axis, to scale: ${describe(rig)}`;
  return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${alt}" width="${WIDTH}" height="${px(height)}" viewBox="0 0 ${WIDTH} ${px(height)}" font-family="${FONT}" font-size="${TEXT_SIZE.label}"><rect width="${WIDTH}" height="${px(height)}" fill="${INK.paper}"/>${label(4, 16, `${title}: ${coilText(rig)}`, 'start')}${parts}</svg>`
    .source;
}

interface View {
  readonly x: (r: number) => number;
  readonly y: (z: number) => number;
  /** px per m. */
  readonly scale: number;
  /** Which way y runs as z grows. */
  readonly toward: 1 | -1;
}

function coilText({ coil }: RigOutline): string {
  const loss = Number.isFinite(coil.loss) ? `, takes ${numberText(coil.loss)} W` : '';
  const layers = Number.isFinite(coil.layers) ? ` in ${coil.layers} layers` : '';
  return `${coil.turns} turns${layers} of ${numberText(coil.wire * MM)} mm ${coil.metal} wire${loss}`;
}

function layerText({ thickness, metal }: RigOutline['plate']['layers'][number]): string {
  return Number.isFinite(thickness) ? `${numberText(thickness * MM)} mm ${metal}` : `thick ${metal}`;
}

function describe({ coil, plate, gap }: RigOutline): string {
  const across = `coil of radii ${millimetres(coil.innerRadius)} and ${millimetres(coil.outerRadius)}`;
  const where = plate.isAbove ? 'below' : 'above';
  return `${across}, ${millimetres(coil.height)} high, ${millimetres(gap)} ${where} a plate of ${plate.layers.map(layerText).join(' and ')}.`;
}

function plateMarkup(
  { plate }: RigOutline,
  view: View,
  { isWide, depth, reach }: { isWide: boolean; depth: number; reach: number },
): Markup[] {
  const { x, y, scale, toward } = view;
  let from = 0;
  const layers = plate.layers.flatMap(({ thickness, ink }) => {
    const to = Math.min(from + thickness, depth);
    const tall = Math.max(THINNEST, (to - from) * scale);
    const top = toward < 0 ? y(-from) : y(-from) - tall;
    from = to;
    return [-1, 1].map((side) => {
      const inner = side * plate.innerRadius;
      const left = Math.min(x(inner), x(side * reach));
      return html`<rect x="${px(left)}" y="${px(top)}" width="${px((reach - plate.innerRadius) * scale)}" height="${px(tall)}" fill="${ink}"/>`;
    });
  });
  const outer = Math.max(THINNEST, depth * scale);
  const [top, bottom] = toward < 0 ? [y(0), y(0) + outer] : [y(0) - outer, y(0)];
  const faces = [
    y(0),
    ...(plate.layers.every(({ thickness }) => Number.isFinite(thickness)) ? [toward < 0 ? bottom : top] : []),
  ];
  return [
    ...layers,
    ...faces.map((at) => line(x(-reach), at, x(reach), at, INK.text)),
    ...[-1, 1].map((side) =>
      isWide
        ? breakLine(x(side * reach), top, bottom)
        : line(x(side * reach), top, x(side * reach), bottom, INK.text),
    ),
  ];
}

/** Where a plate goes on beyond the drawing. */
function breakLine(at: number, top: number, bottom: number): Markup {
  const middle = (top + bottom) / 2;
  return html`<path d="M${px(at)} ${px(top - 6)}V${px(middle - 4)}l-4 2l8 4l-4 2V${px(bottom + 6)}" fill="none" stroke="${INK.text}" stroke-width="1"/>`;
}

function coilMarkup({ coil, gap }: RigOutline, { x, y, scale, toward }: View): Markup[] {
  const width = (coil.outerRadius - coil.innerRadius) * scale;
  const tall = coil.height * scale;
  const top = Math.min(y(gap), y(gap + coil.height));
  const isDrawnByWire = coil.wound !== null && coil.wound.pitch * scale >= FINEST_WIRE;
  return [-1, 1].flatMap((side) => {
    const left = side > 0 ? x(coil.innerRadius) : x(-coil.outerRadius);
    const frame = html`<rect x="${px(left)}" y="${px(top)}" width="${px(width)}" height="${px(tall)}" fill="${isDrawnByWire ? INK.paper : coil.ink}" stroke="${INK.text}" stroke-width="0.8"/>`;
    if (!isDrawnByWire) return [frame];
    const pitch = coil.wound!.pitch * scale;
    // a dash of no length with round ends is a dot: one path a layer
    const wires = coil.wound!.perLayer.map((count, layer) => {
      const at = y(gap) + toward * (layer + 0.5) * pitch;
      const start = x(side * coil.innerRadius) + side * 0.5 * pitch;
      return html`<path d="M${px(start)} ${px(at)}h${px(side * (count - 0.8) * pitch)}" stroke-dasharray="0 ${pitch.toFixed(4)}"/>`;
    });
    return [
      frame,
      html`<g fill="none" stroke="${coil.ink}" stroke-width="${px(Math.max(1.2, coil.wire * scale))}" stroke-linecap="round">${wires}</g>`,
    ];
  });
}

/** Inner and outer radius, from the axis outward, beyond the coil's far face. */
function radiusMarks({ coil, gap }: RigOutline, { x, y, toward }: View): Markup[] {
  const face = y(gap + coil.height);
  return [coil.innerRadius, coil.outerRadius].flatMap((r, i) => {
    const at = face + toward * (14 + 20 * i);
    return [
      line(x(r), face + toward * 3, x(r), at + toward * 4, INK.quiet),
      arrow(x(0), at, x(r)),
      label((x(0) + x(r)) / 2, at - 4, millimetres(r), 'middle'),
    ];
  });
}

/** Heights on the left: winding, gap, plate; their names are spread where the heights are small. */
function heightMarks(rig: RigOutline, { y }: View, depth: number, total: number, at: number): Markup[] {
  const { coil, gap, plate, standoff } = rig;
  const marks = [
    { from: gap, to: gap + coil.height, text: `winding ${millimetres(coil.height)}` },
    { from: 0, to: gap, text: gap > standoff ? `gap ${millimetres(gap)}` : `standoff ${millimetres(gap)}` },
    {
      from: -depth,
      to: 0,
      text: Number.isFinite(total)
        ? `${plate.layers.length > 1 ? 'layers' : 'plate'} ${millimetres(total)}`
        : 'thick plate',
    },
  ];
  const places = spreadLabels(
    marks.map(({ from, to }) => y((from + to) / 2)),
    LABEL_SPACING,
  );
  return marks.flatMap(({ from, to, text }, i) => {
    const middle = y((from + to) / 2);
    return [
      line(at - 5, y(from), at + 5, y(from), INK.quiet),
      line(at - 5, y(to), at + 5, y(to), INK.quiet),
      line(at, y(from), at, y(to), INK.text),
      line(at - 4, middle, at - 14, places[i]!, INK.quiet),
      label(at - 17, places[i]! + 4, text, 'end'),
    ];
  });
}

/** A round length, about a fifth of the rig. */
function scaleBar(reach: number, { x, scale }: View, at: number): Markup[] {
  const wanted = (2 * reach * MM) / 5;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const length = [5, 2, 1].find((step) => step * power <= wanted)! * power;
  const left = x(-reach);
  const right = left + (length / MM) * scale;
  return [
    line(left, at, right, at, INK.text),
    line(left, at - 4, left, at + 4, INK.text),
    line(right, at - 4, right, at + 4, INK.text),
    label(right + 6, at + 4, `${numberText(length)} mm`, 'start'),
  ];
}

function millimetres(metres: number): string {
  return `${numberText(metres * MM)} mm`;
}

function line(x1: number, y1: number, x2: number, y2: number, ink: string, dash = ''): Markup {
  const dashed = dash === '' ? null : html` stroke-dasharray="${dash}"`;
  return html`<path d="M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}" stroke="${ink}" stroke-width="1"${dashed}/>`;
}

/** From the axis to a radius: the head is at the end that is measured. */
function arrow(x1: number, y1: number, x2: number): Markup {
  return html`<path d="M${px(x1)} ${px(y1)}H${px(x2)}m-7 -3l7 3l-7 3" fill="none" stroke="${INK.text}" stroke-width="1"/>`;
}

function label(x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end'): Markup {
  const most = anchor === 'middle' ? WIDTH - 8 : anchor === 'end' ? x - 4 : WIDTH - x - 4;
  const size = Math.min(TEXT_SIZE.label, (TEXT_SIZE.label * most) / textWidth(text, TEXT_SIZE.label));
  const shrunk = size < TEXT_SIZE.label ? html` font-size="${px(size)}"` : null;
  return html`<text x="${px(x)}" y="${px(y)}" text-anchor="${anchor}" fill="${INK.text}" stroke="${INK.paper}" stroke-width="3" paint-order="stroke"${shrunk}>${text}</text>`;
}

function px(value: number): number {
  return Math.round(value * 100) / 100;
}
