import { CURVES, INK } from './palette.ts';

/** More than these cannot be separated. */
export const MOST_CURVES = CURVES.length;

/** Marks that one curve carries, so that it is known without ink or dash. */
const MARKS = 5;

/** Places along a curve at which it carries its mark. */
export function markedPoints<Point>(points: readonly Point[]): Point[] {
  if (points.length === 0) return [];
  return Array.from({ length: MARKS }, (_, m) => points[Math.floor(((m + 0.5) * points.length) / MARKS)]!);
}

/** Rings around where the study runs the designs. */
export const RINGS = Object.freeze({
  type: 'point',
  aria: false,
  size: 190,
  strokeWidth: 1.4,
  stroke: INK.text,
  opacity: 1,
});

export const MARK = Object.freeze({ type: 'point', aria: false, filled: true, size: 44, opacity: 1 });

/**
 * How curves of several designs are distinguished: by ink with dashes, or by ink with marks, and a legend where there is
 * more than one. Points name their curve in `design`.
 */
export function curveEncodings(names: readonly string[], columnPadding: number) {
  const legend =
    names.length === 1
      ? null
      : {
          title: null,
          orient: 'top',
          direction: 'horizontal',
          columns: 2,
          symbolSize: 60,
          symbolOpacity: 1,
          columnPadding,
        };
  const channel = (what: 'ink' | 'dash' | 'mark') => ({
    field: 'design',
    type: 'nominal',
    scale: { domain: names, range: CURVES.slice(0, names.length).map((curve) => curve[what]) },
    legend,
  });
  return {
    line: { color: channel('ink'), strokeDash: channel('dash') },
    mark: { color: channel('ink'), shape: channel('mark') },
  };
}
