import { INK } from '../report/charts/palette.ts';
import { html, type Markup } from '../report/text/html.ts';
import type { FoundFront } from './designs-front.ts';

export type Place = readonly [x: number, y: number];

/** Corners in the drawing. */
export interface Box {
  readonly from: Place;
  readonly to: Place;
}

/** What stands out in every chart alike: that links them. */
export interface Marks {
  /** The design that the controls hold; -1: none. */
  readonly loaded: number;
  /** The design that the keyboard is at; -1: none. */
  readonly looked: number;
  readonly selected: ReadonlySet<number>;
  readonly brush: Box | null;
}

/** Designs drawn by some of their columns. */
export interface DesignChart {
  readonly width: number;
  readonly height: number;
  markup(found: FoundFront, marks: Marks): string;
  /** How far a design is from a place in the drawing, px. */
  distance(row: number, place: Place): number;
  /** Whether a box drawn around designs takes this one. */
  takes(row: number, box: Box): boolean;
  /** By what the keyboard goes along it. */
  order(row: number): number;
}

export function edgesOf({ from, to }: Box) {
  return {
    left: Math.min(from[0], to[0]),
    right: Math.max(from[0], to[0]),
    top: Math.min(from[1], to[1]),
    bottom: Math.max(from[1], to[1]),
  };
}

export function brushMarkup(brush: Box | null): Markup | null {
  if (brush === null) return null;
  const { left, right, top, bottom } = edgesOf(brush);
  return html`<rect x="${px(left)}" y="${px(top)}" width="${px(right - left)}" height="${px(bottom - top)}" fill="${INK.third}" fill-opacity="0.15" stroke="${INK.third}"/>`;
}

/** Rows by how they are drawn, what lies on top last. */
export function byRank({ feasible, front }: FoundFront, { selected }: Marks) {
  const onFront = new Set(front);
  const isPlain = (row: number) => !selected.has(row);
  return [
    {
      ink: INK.others,
      size: 4.5,
      line: 0.6,
      rows: feasible.filter((row) => !onFront.has(row) && isPlain(row)),
    },
    { ink: INK.front, size: 9, line: 1.4, rows: front.filter(isPlain) },
    { ink: INK.third, size: 9, line: 1.8, rows: feasible.filter((row) => selected.has(row)) },
  ];
}

export function px(value: number): number {
  return Math.round(value * 10) / 10;
}
