import type { SidewaysPoint } from '../../rig/sideways-curve.ts';
import { numberText } from '../../text/number-text.ts';
import { FONT, INK, TEXT_SIZE } from '../charts/palette.ts';
import type { HeatProfile } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { heightMarks, millimetres, radiusMarks, radiusRoom, scaleBar, type View } from './dimension-marks.ts';
import { drawingScale, movedEdge, ROOM, SIDES } from './drawing-scale.ts';
import { type FieldMoment, fieldMarks } from './field-marks.ts';
import type { RigOutline, WindingOutline } from './rig-outline.ts';
import { arrow, label, labelOver, line, px, WIDTH } from './strokes.ts';

const MARGIN = { ...SIDES, title: 30, bottom: 54 };
/** The hill of heat beyond the plate's far side, and the room for it and its label, px. */
const HEAT_GAP = 5;
const HEAT_HEIGHT = 30;
const HEAT_ROOM = 54;
/** W/m2 to W/cm2. */
const PER_CM2 = 1e-4;
/** Between the title and a plate above the coil, px. */
const HEADROOM = 16;
/** Nothing is drawn thinner, px: foil would vanish. */
const THINNEST = 1.5;
/** Wires closer than this are not drawn one by one, px. */
const FINEST_WIRE = 2.8;
/** Of the force sideways, px. */
const ARROW = 21;
/** The sign of a current's direction, px. */
const SIGN_RADIUS = 6;

export interface SectionOptions {
  /** Room kept from the plate's face to the coil's far face, m: with it the plate stays in its place while the coil rises. */
  readonly room?: number;
  /** Drawn into the plate, m. */
  readonly skinDepth?: number;
  /** Flux density and currents at a moment. */
  readonly moment?: FieldMoment;
}

/**
 * A rig cut along its axis, to scale in both directions, with its dimensions. SVG text.
 *
 * @param title what the drawing is of: `A: design 12, knee`
 */
export function crossSection(
  rig: RigOutline,
  title: string,
  { room = 0, skinDepth = Number.NaN, moment }: SectionOptions = {},
): string {
  const { windings, coilHeight, plate, gap, sideways = null } = rig;
  const { widest, isWide, reach, depth, tall, scale } = drawingScale(rig, room);
  const axis = MARGIN.left + ROOM.width / 2;
  const beyond = radiusRoom(windings.length);
  const warm = plate.heat === null ? 0 : HEAT_ROOM;
  const height = px(MARGIN.title + beyond + (tall + depth) * scale + warm + MARGIN.bottom);
  const faceY = plate.isAbove
    ? MARGIN.title + warm + HEADROOM + (depth + tall - gap - coilHeight) * scale
    : MARGIN.title + beyond + tall * scale;
  const view: View = {
    x: (r) => axis + r * scale,
    y: (z) => faceY + (plate.isAbove ? z : -z) * scale,
    scale,
    toward: plate.isAbove ? 1 : -1,
  };
  const left = view.x(-reach);
  const parts = [
    plateMarkup(rig, view, isWide ? reach : plate.radius, depth),
    skinDepth < depth ? skinMarkup(skinDepth, plate.innerRadius, isWide ? reach : plate.radius, view) : null,
    skinDepth >= depth
      ? label(WIDTH - 4, height - 12, `skin depth ${millimetres(skinDepth)}: deeper than drawn`, 'end')
      : null,
    plate.heat === null ? null : heatMarkup(plate.heat, view, Math.max(THINNEST / scale, depth), reach),
    windings.map((winding) => windingMarkup(rig, winding, view, moment === undefined)),
    moment === undefined ? null : fieldMarks(rig, view, moment),
    sideways === null ? null : movedMarkup(rig, sideways, movedEdge(rig, widest), depth, view),
    line(axis, MARGIN.title + 4, axis, height - MARGIN.bottom + 8, INK.quiet, '12 3 2 3'),
    radiusMarks(rig, view, moment === undefined ? label : labelOver),
    heightMarks(rig, view, depth, left - 12),
    label(left, height - 30, plateText(rig, depth * scale < THINNEST), 'start'),
    scaleBar(reach, view, left, height - 12),
    sideways === null ? null : label(WIDTH - 4, height - 8, movedWords(sideways), 'end'),
  ];
  const alt = `${title}, cut along its axis, to scale: ${inWords(rig)}`;
  return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${alt}" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" font-family="${FONT}" font-size="${TEXT_SIZE.label}"><rect width="${WIDTH}" height="${height}" fill="${INK.paper}"/>${label(4, 16, `${title}: ${coilText(rig)}`, 'start')}${parts}</svg>`
    .source;
}

/** Where the floating part's edge would be, dashed, and which way it is driven there. */
function movedMarkup(
  { plate, gap, coilHeight }: RigOutline,
  { shift, overWeight }: SidewaysPoint,
  edge: number,
  depth: number,
  { x, y, scale }: View,
): Markup[] {
  const [from, to] = plate.isAbove ? [-depth, 0] : [gap, gap + coilHeight];
  const top = Math.min(y(from), y(to));
  const bottom = top + Math.max(THINNEST, (to - from) * scale);
  const at = x(edge + shift);
  const middle = (top + bottom) / 2;
  const out = overWeight > 0;
  return [
    line(x(edge), top, at, top, INK.text, '4 3'),
    line(x(edge), bottom, at, bottom, INK.text, '4 3'),
    line(at, top, at, bottom, INK.text, '4 3'),
    out ? arrow(at + 3, at + ARROW, middle) : arrow(at + ARROW, at + 3, middle),
  ];
}

/** `pushed off: 0.19 of its weight at 40 mm` */
function movedWords({ shift, overWeight }: SidewaysPoint): string {
  return `${overWeight > 0 ? 'pushed off' : 'driven back'}: ${numberText(Math.abs(overWeight))} of its weight at ${millimetres(shift)}`;
}

function coilText({ windings, coilLoss }: RigOutline): string {
  const texts = windings.map(({ turns, layers, wire, metal }) => {
    const inLayers = Number.isFinite(layers) ? ` in ${layers} layers` : '';
    return `${turns} turns${inLayers} of ${millimetres(wire)} ${metal} wire`;
  });
  const loss = Number.isFinite(coilLoss) ? `, coil loss ${numberText(coilLoss)} W` : '';
  return `${[...new Set(texts)].join(' and ')}${loss}`;
}

function plateText({ plate }: RigOutline, isThickened: boolean): string {
  const notes = [
    plate.layers.map(layerText).join(', '),
    ...(plate.sides ? [`${plate.sides.map(millimetres).join(' by ')}, drawn as its equal disc`] : []),
    ...(plate.radius > 0 ? [`radius ${millimetres(plate.radius)}`] : []),
    ...(plate.innerRadius > 0 ? [`hole of radius ${millimetres(plate.innerRadius)}`] : []),
    ...(Number.isFinite(plate.loss) ? [`plate loss ${numberText(plate.loss)} W`] : []),
    ...(isThickened ? ['drawn thicker than it is'] : []),
  ];
  return `plate: ${notes.join(', ')}`;
}

function layerText({ thickness, metal }: RigOutline['plate']['layers'][number]): string {
  return `${Number.isFinite(thickness) ? millimetres(thickness) : 'thick'} ${metal}`.trimEnd();
}

function inWords({ windings, coilHeight, plate, gap }: RigOutline): string {
  const radii = windings.map(
    ({ innerRadius, outerRadius }) => `radii ${millimetres(innerRadius)} and ${millimetres(outerRadius)}`,
  );
  const where = plate.isAbove ? 'below' : 'above';
  return `a coil of ${radii.join(', ')}, ${millimetres(coilHeight)} high, ${millimetres(gap)} ${where} a plate of ${plate.layers.map(layerText).join(' and ')}.`;
}

function plateMarkup({ plate }: RigOutline, view: View, edge: number, depth: number): Markup[] {
  const { x, y, scale, toward } = view;
  const thick = Math.max(THINNEST, depth * scale);
  const [top, bottom] = toward < 0 ? [y(0), y(0) + thick] : [y(0) - thick, y(0)];
  const isEndless = plate.layers.some(({ thickness }) => !Number.isFinite(thickness));
  const far = toward < 0 ? bottom : top;
  return [-1, 1].flatMap((side) => {
    const [near, end] = [x(side * plate.innerRadius), x(side * edge)];
    const from = Math.min(near, end);
    let reached = 0;
    const layers = plate.layers.map(({ thickness, ink }) => {
      const to = Math.min(reached + thickness, depth);
      const tall = Math.max(THINNEST, (to - reached) * scale);
      const at = toward < 0 ? y(-reached) : y(-reached) - tall;
      reached = to;
      return html`<rect x="${px(from)}" y="${px(at)}" width="${px(Math.abs(end - near))}" height="${px(tall)}" fill="${ink}"/>`;
    });
    return [
      ...layers,
      line(near, y(0), end, y(0), INK.text),
      ...(isEndless ? [] : [line(near, far, end, far, INK.text)]),
      ...(plate.innerRadius > 0 ? [line(near, top, near, bottom, INK.text)] : []),
      plate.radius > 0 ? line(end, top, end, bottom, INK.text) : breakLine(end, top, bottom),
    ];
  });
}

/**
 * How much heat falls at each distance from the axis, as a hill on the plate's far side; its top is labelled. The hill
 * is not to scale, heat has no length.
 */
function heatMarkup(
  { radii, density }: HeatProfile,
  { x, y, toward }: View,
  depth: number,
  reach: number,
): Markup[] {
  const most = density.reduce((a, b) => Math.max(a, b), 0);
  if (!(most > 0)) return [];
  const base = y(-depth) - toward * HEAT_GAP;
  const shown = [...radii.keys()].filter((i) => radii[i]! <= reach);
  const top = (i: number) => base - toward * (density[i]! / most) * HEAT_HEIGHT;
  const hill = (side: 1 | -1) => {
    const points = shown.map((i) => `${px(x(side * radii[i]!))} ${px(top(i))}`);
    const [first, last] = [radii[shown[0]!]!, radii[shown.at(-1)!]!];
    return html`<path d="M${px(x(side * first))} ${px(base)}L${points.join('L')}L${px(x(side * last))} ${px(base)}Z" fill="${INK.heat}" fill-opacity="0.35" stroke="${INK.heat}" stroke-width="1"/>`;
  };
  const peak = shown.find((i) => density[i] === most) ?? 0;
  const text = `heat, up to ${numberText(most * PER_CM2)} W/cm²`;
  return [
    hill(-1),
    hill(1),
    labelOver(x(radii[peak]!), top(peak) - toward * 4 + (toward < 0 ? 12 : 0), text, 'middle'),
  ];
}

/** How deep the currents reach: there they are 1/e of those at the face. */
function skinMarkup(skinDepth: number, from: number, to: number, { x, y }: View): Markup[] {
  const at = y(-skinDepth);
  return [
    ...[-1, 1].map((side) => line(x(side * from), at, x(side * to), at, INK.heat, '5 3')),
    labelOver(x(to) - 6, at + 4, `skin depth ${millimetres(skinDepth)}`, 'end'),
  ];
}

/** Where a plate goes on beyond the drawing. */
function breakLine(at: number, top: number, bottom: number): Markup {
  const middle = (top + bottom) / 2;
  return html`<path d="M${px(at)} ${px(top - 6)}V${px(middle - 4)}l-4 2l8 4l-4 2V${px(bottom + 6)}" fill="none" stroke="${INK.text}" stroke-width="1"/>`;
}

function windingMarkup(
  { gap, windings }: RigOutline,
  winding: WindingOutline,
  view: View,
  isSigned: boolean,
): Markup[] {
  const { x, y, scale, toward } = view;
  const { innerRadius, outerRadius, offset, height, wound, ink } = winding;
  const from = gap + offset;
  const top = Math.min(y(from), y(from + height));
  const isDrawnByWire = wound !== null && wound.pitch * scale >= FINEST_WIRE;
  return [-1, 1].flatMap((side) => {
    const left = side > 0 ? x(innerRadius) : x(-outerRadius);
    const width = (outerRadius - innerRadius) * scale;
    const frame = html`<rect x="${px(left)}" y="${px(top)}" width="${px(width)}" height="${px(height * scale)}" fill="${isDrawnByWire ? INK.paper : ink}" stroke="${INK.text}" stroke-width="0.8"/>`;
    const sign =
      isSigned && windings.length > 1
        ? directionSign(left + width / 2, top + (height * scale) / 2, side * winding.sense > 0)
        : [];
    return [frame, ...(isDrawnByWire ? [wires(winding, side, from, view, toward)] : []), ...sign];
  });
}

/** A dash of no length with round ends is a dot: one path a layer. */
function wires(
  { innerRadius, wound, wire, ink }: WindingOutline,
  side: number,
  from: number,
  { x, y, scale }: View,
  toward: number,
): Markup {
  const pitch = wound!.pitch * scale;
  const start = x(side * innerRadius) + side * 0.5 * pitch;
  const layers = wound!.perLayer.map((count, layer) => {
    const at = y(from) + toward * (layer + 0.5) * pitch;
    return html`<path d="M${px(start)} ${px(at)}h${px(side * (count - 0.8) * pitch)}" stroke-dasharray="0 ${pitch.toFixed(4)}"/>`;
  });
  return html`<g fill="none" stroke="${ink}" stroke-width="${px(Math.max(1.2, wire * scale))}" stroke-linecap="round">${layers}</g>`;
}

/** Of a current at one instant: a dot toward the reader, a cross away. */
function directionSign(x: number, y: number, toward: boolean): Markup[] {
  const arm = SIGN_RADIUS * 0.6;
  return [
    html`<circle cx="${px(x)}" cy="${px(y)}" r="${SIGN_RADIUS}" fill="${INK.paper}" stroke="${INK.text}" stroke-width="1"/>`,
    toward
      ? html`<circle cx="${px(x)}" cy="${px(y)}" r="1.8" fill="${INK.text}"/>`
      : html`<path d="M${px(x - arm)} ${px(y - arm)}l${px(2 * arm)} ${px(2 * arm)}m0 ${px(-2 * arm)}l${px(-2 * arm)} ${px(2 * arm)}" stroke="${INK.text}" stroke-width="1.2"/>`,
  ];
}
