import { numberText } from '../../text/number-text.ts';
import { INK } from '../charts/palette.ts';
import type { Markup } from '../text/html.ts';
import type { RigOutline } from './rig-outline.ts';
import { separateLabels } from './separate-labels.ts';
import { arrow, label, line } from './strokes.ts';

const LABEL_SPACING = 16;
const MM = 1e3;

/** From metres to pixels: r from the axis, z from the plate's face toward the coil. */
export interface View {
  readonly x: (r: number) => number;
  readonly y: (z: number) => number;
  /** px per m. */
  readonly scale: number;
  /** Which way y runs as z grows. */
  readonly toward: 1 | -1;
}

/** Px that the radii of so many windings take beyond the coil's far face. */
export function radiusRoom(windings: number): number {
  return 18 + 20 * 2 * windings;
}

/**
 * Inner and outer radii of each winding, from the axis outward, beyond the coil's far face.
 * @param write a label, on bare paper or over what is drawn there
 */
export function radiusMarks(
  { windings, coilHeight, gap }: RigOutline,
  { x, y, toward }: View,
  write: typeof label,
): Markup[] {
  const face = y(gap + coilHeight);
  const radii = windings.flatMap(({ innerRadius, outerRadius }) => [innerRadius, outerRadius]);
  return radii
    .sort((a, b) => a - b)
    .flatMap((r, i) => {
      const at = face + toward * (14 + 20 * i);
      return [
        line(x(r), face + toward * 3, x(r), at + toward * 4, INK.quiet),
        arrow(x(0), x(r), at),
        write((x(0) + x(r)) / 2, at - 4, millimetres(r), 'middle'),
      ];
    });
}

/**
 * Heights beside the rig, at x = `at`: coil, how high it floats over its rest, standoff, plate; their names are spread where
 * the heights are small.
 */
export function heightMarks(
  { windings, coilHeight, gap, standoff, plate }: RigOutline,
  { y }: View,
  depth: number,
  at: number,
): Markup[] {
  const total = plate.layers.reduce((sum, { thickness }) => sum + thickness, 0);
  const floats = gap > standoff;
  // what floats rests at a standoff from the part that stands
  const stands = floats ? standoff : gap;
  const rest = plate.isAbove ? gap - stands : stands;
  const between = (a: number, b: number) => ({ from: Math.min(a, b), to: Math.max(a, b) });
  const marks = [
    {
      from: gap,
      to: gap + coilHeight,
      text: `${windings.length > 1 ? 'coil' : 'winding'} ${millimetres(coilHeight)}`,
    },
    ...(floats
      ? [{ ...between(rest, plate.isAbove ? 0 : gap), text: `floats ${millimetres(gap - standoff)}` }]
      : []),
    ...(standoff > 0 || !floats
      ? [{ ...between(rest, plate.isAbove ? gap : 0), text: `standoff ${millimetres(stands)}` }]
      : []),
    { from: -depth, to: 0, text: Number.isFinite(total) ? `plate ${millimetres(total)}` : 'thick plate' },
  ];
  const places = separateLabels(
    marks.map(({ from, to }) => y((from + to) / 2)),
    LABEL_SPACING,
  );
  return marks.flatMap(({ from, to, text }, i) => [
    line(at - 5, y(from), at + 5, y(from), INK.quiet),
    line(at - 5, y(to), at + 5, y(to), INK.quiet),
    line(at, y(from), at, y(to), INK.text),
    line(at - 4, y((from + to) / 2), at - 14, places[i]!, INK.quiet),
    label(at - 17, places[i]! + 4, text, 'end'),
  ]);
}

/** A round length, about a fifth of the rig, from x = `left` on. */
export function scaleBar(reach: number, { scale }: View, left: number, y: number): Markup[] {
  const wanted = (2 * reach * MM) / 5;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const length = [5, 2, 1].find((step) => step * power <= wanted)! * power;
  const right = left + (length / MM) * scale;
  return [
    line(left, y, right, y, INK.text),
    line(left, y - 4, left, y + 4, INK.text),
    line(right, y - 4, right, y + 4, INK.text),
    label(right + 6, y + 4, `${numberText(length)} mm`, 'start'),
  ];
}

export function millimetres(metres: number): string {
  return `${numberText(metres * MM)} mm`;
}
