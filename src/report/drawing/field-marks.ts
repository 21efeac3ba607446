import type { FieldGrid, FieldPhasors, Phasors } from '../../kernel/field-grid.ts';
import { INK } from '../charts/palette.ts';
import { html, type Markup } from '../text/html.ts';
import type { View } from './dimension-marks.ts';
import { drawingScale } from './drawing-scale.ts';
import type { RigOutline } from './rig-outline.ts';
import { px } from './strokes.ts';

/** Between arrows; the longest arrow; its head; px. */
const STEP = 26;
const LONGEST = 24;
const SHORTEST = 4;
const HEAD = 4;
/** Between signs of current in the plate, and the largest of them, px. */
const SIGN_STEP = 20;
const ROW_STEP = 13;
const LARGEST = 6;
const SMALLEST = 1.2;
/** The coil's own signs, px. */
const COIL_SIGN = 8;
/** The field is computed to this many outer radii. */
const FARTHEST = 2;

/** A field at a moment: how far the cycle of the coil's current has gone since its peak, rad. */
export interface FieldMoment {
  readonly grid: FieldGrid;
  readonly field: FieldPhasors;
  readonly phase: number;
}

/** Largest values over the cycle at the points drawn: T, A/m2. */
export function largestOf({ radial, axial, current }: FieldPhasors): { field: number; current: number } {
  const square = (i: number, ...parts: readonly Phasors[]) =>
    parts.reduce((sum, { re, im }) => sum + re[i]! ** 2 + im[i]! ** 2, 0);
  let field = 0;
  for (let i = 0; i < radial.re.length; i++) field = Math.max(field, square(i, radial, axial));
  let most = 0;
  for (let i = 0; i < current.re.length; i++) most = Math.max(most, square(i, current));
  return { field: Math.sqrt(2 * field), current: Math.sqrt(2 * most) };
}

/** Where arrows and signs stand in a drawing of the rig. */
export function fieldGrid(rig: RigOutline, room: number): FieldGrid {
  const { reach, depth, tall, scale, widest } = drawingScale(rig, room);
  const across = Math.min(reach, FARTHEST * widest);
  const count = Math.max(2, Math.round((across * scale) / SIGN_STEP));
  const step = STEP / scale;
  const gap = rig.gap;
  const over = Array.from({ length: Math.floor(tall / step) }, (_, i) => (i + 0.5) * step);
  // one row in a gap that holds none
  const heights =
    gap > 0.3 * step ? [gap / 2, ...over.filter((height) => Math.abs(height - gap / 2) > 0.7 * step)] : over;
  const rows = Math.max(1, Math.round((depth * scale) / ROW_STEP));
  return {
    radii: Float64Array.from({ length: count }, (_, i) => ((i + 0.5) * across) / count),
    heights: Float64Array.from(heights).sort(),
    depths: Float64Array.from({ length: rows }, (_, i) => ((i + 0.5) * depth) / rows),
  };
}

/**
 * Arrows of the flux density in the air, and signs of the currents in plate and coil: a dot toward the reader, a cross away.
 * Lengths and sizes go by the square root, so that what is weak is still seen.
 */
export function fieldMarks(rig: RigOutline, view: View, moment: FieldMoment): Markup[] {
  const { field, phase } = moment;
  const most = largestOf(field);
  const arrows = arrowPath(rig, view, moment, most.field);
  const { circles, inner } = plateSigns(view, moment, most.current);
  const coil = coilSigns(rig, view, phase);
  return [
    html`<path d="${arrows}" fill="none" stroke="${INK.front}" stroke-width="1.3" stroke-linecap="round"/>`,
    html`<path d="${circles}${coil.circles}" fill="${INK.paper}" stroke="${INK.text}" stroke-width="0.9"/>`,
    html`<path d="${inner}${coil.inner}" fill="none" stroke="${INK.text}" stroke-width="1.6" stroke-linecap="round"/>`,
  ];
}

/** What a phasor is at a moment: a peak is sqrt 2 of it. */
function now({ re, im }: Phasors, i: number, phase: number): number {
  return Math.SQRT2 * (re[i]! * Math.cos(phase) - im[i]! * Math.sin(phase));
}

function arrowPath(rig: RigOutline, view: View, { grid, field, phase }: FieldMoment, most: number): string {
  const { radii, heights } = grid;
  const { x, y, toward } = view;
  let path = '';
  for (let h = 0; h < heights.length; h++) {
    for (let p = 0; p < radii.length; p++) {
      // every other one: signs stand closer
      if ((p + h) % 2 === 1 || isInWinding(rig, radii[p]!, heights[h]!, view.scale)) continue;
      const at = h * radii.length + p;
      const radial = now(field.radial, at, phase);
      const axial = now(field.axial, at, phase);
      const size = Math.hypot(radial, axial);
      const length = LONGEST * Math.sqrt(size / most);
      if (!(length >= SHORTEST)) continue;
      for (const side of [-1, 1]) {
        // with the coil's current toward the reader on the right
        const dx = (toward * side * radial * length) / size;
        const dy = (axial * length) / size;
        path += arrow(x(side * radii[p]!), y(heights[h]!), dx, dy);
      }
    }
  }
  return path;
}

/** Around its middle. */
function arrow(x: number, y: number, dx: number, dy: number): string {
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [(dx / length) * HEAD, (dy / length) * HEAD];
  const [toX, toY] = [x + dx / 2, y + dy / 2];
  return `M${px(x - dx / 2)} ${px(y - dy / 2)}L${px(toX)} ${px(toY)}M${px(toX - ux - uy / 2)} ${px(toY - uy + ux / 2)}L${px(toX)} ${px(toY)}L${px(toX - ux + uy / 2)} ${px(toY - uy - ux / 2)}`;
}

function isInWinding({ windings, gap }: RigOutline, r: number, z: number, scale: number): boolean {
  const margin = HEAD / scale;
  return windings.some(
    ({ innerRadius, outerRadius, offset, height }) =>
      r > innerRadius - margin &&
      r < outerRadius + margin &&
      z > gap + offset - margin &&
      z < gap + offset + height + margin,
  );
}

interface SignPaths {
  circles: string;
  /** Dots and crosses. */
  inner: string;
}

function plateSigns({ x, y }: View, { grid, field, phase }: FieldMoment, most: number): SignPaths {
  const paths: SignPaths = { circles: '', inner: '' };
  const { radii, depths } = grid;
  for (let d = 0; d < depths.length; d++) {
    for (let p = 0; p < radii.length; p++) {
      const density = now(field.current, d * radii.length + p, phase);
      const size = LARGEST * Math.sqrt(Math.abs(density) / most);
      if (!(size >= SMALLEST)) continue;
      for (const side of [-1, 1])
        addSign(paths, x(side * radii[p]!), y(-depths[d]!), size, side * density > 0);
    }
  }
  return paths;
}

function coilSigns({ windings, gap }: RigOutline, { x, y, scale }: View, phase: number): SignPaths {
  const paths: SignPaths = { circles: '', inner: '' };
  const current = Math.cos(phase);
  const largest = Math.sqrt(Math.abs(current));
  for (const { innerRadius, outerRadius, offset, height, sense } of windings) {
    const room = Math.min((outerRadius - innerRadius) * scale, height * scale) / 2;
    const size = Math.min(COIL_SIGN, Math.max(LARGEST, room - 1)) * largest;
    if (size < SMALLEST) continue;
    for (const side of [-1, 1]) {
      const middle = (side * (innerRadius + outerRadius)) / 2;
      addSign(paths, x(middle), y(gap + offset + height / 2), size, side * sense * current > 0);
    }
  }
  return paths;
}

function addSign(paths: SignPaths, x: number, y: number, size: number, isToward: boolean): void {
  const r = px(size);
  paths.circles += `M${px(x - size)} ${px(y)}a${r} ${r} 0 1 0 ${px(2 * size)} 0a${r} ${r} 0 1 0 ${px(-2 * size)} 0z`;
  const arm = px(0.55 * size);
  // a line of no length with round ends is a dot
  paths.inner += isToward
    ? `M${px(x)} ${px(y)}h0`
    : `M${px(x - arm)} ${px(y - arm)}l${2 * arm} ${2 * arm}m0 ${-2 * arm}l${-2 * arm} ${2 * arm}`;
}
