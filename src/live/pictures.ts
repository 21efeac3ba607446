import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import { toUnit, UNITS } from '../model/units.ts';
import { INK } from '../report/charts/palette.ts';
import { crossSection } from '../report/drawing/cross-section.ts';
import type { FieldMoment } from '../report/drawing/field-marks.ts';
import { type RigOutline, rigOutline } from '../report/drawing/rig-outline.ts';
import { formatDuration } from '../text/duration.ts';
import { measureText } from '../text/number-text.ts';
import type { RigView } from './compute-view.ts';
import { type Axis, linearAxis, lineChart, type Point } from './line-chart.ts';
import type { LiveStudy } from './live-data.ts';
import { niceCeiling } from './nice-ceiling.ts';
import type { RigState } from './rig-state.ts';

/** Drawings of one state: texts of SVG. Empty where nothing could be computed. */

/** A view as it is drawn: the plate keeps its place, there is room for the height at the end of the lift curve. */
export interface Drawing {
  readonly outline: RigOutline;
  /** From the plate's face to the coil's far face, m. */
  readonly room: number;
}

/** Null where nothing could be computed. */
export function drawingOf(study: LiveStudy, { texts }: RigState, view: RigView): Drawing | null {
  if (view.curve.length === 0) return null;
  const { slots, results } = view;
  const outline = rigOutline(
    { vary: [], rig: { ...study.rig, texts } },
    { values: new Float64Array(0), slots, results, heat: null },
  );
  const heights = view.curve.map(({ height }) => height).filter(Number.isFinite);
  const highest = Math.max(results[Q.height]!, ...heights, 0);
  // in coarse steps, so that the scale holds while one drags
  const room =
    slots[SLOT.standoff]! + outline.coilHeight + niceCeiling(Number.isFinite(highest) ? highest : 0);
  return { outline, room };
}

/** The rig to scale. */
export function sectionPicture(
  drawing: Drawing | null,
  view: RigView,
  withSkin: boolean,
  moment: FieldMoment | null,
): string {
  if (drawing === null) return '';
  return crossSection(drawing.outline, 'Now', {
    room: drawing.room,
    ...(withSkin && { skinDepth: view.results[Q.skin_depth]! }),
    ...(moment && { moment }),
  });
}

/** Height against current, with what the supply and chatter mean for it. */
export function liftPicture(view: RigView): string {
  const { results, curve, top, supplyLimit, slots } = view;
  if (curve.length === 0 || slots[SLOT.floats] === FLOATS.nothing) return '';
  const points = curve.map(({ current, height }): Point => [current, toUnit(height, UNITS.mm)]);
  const highest = Math.max(0, ...points.map(([, y]) => y).filter(Number.isFinite));
  const current = results[Q.current]!;
  const height = view.status === STATUS.failed ? Number.NaN : results[Q.height]!;
  const marks = [
    { at: results[Q.chatter_current]!, text: 'chatter' },
    { at: results[Q.liftoff_current]!, text: 'lift-off' },
    { at: supplyLimit, text: 'supply limit' },
  ];
  return lineChart({
    words: `Height against current: ${measureText(height, UNITS.mm)} at ${measureText(current, UNITS.A)}.`,
    x: linearAxis('current (A)', top),
    y: linearAxis('height (mm)', niceCeiling(highest) || 1),
    curves: [{ points, ink: INK.front }],
    marks,
    ring: [current, toUnit(height, UNITS.mm)],
  });
}

const SECOND = 1;
const DAY = 86_400;
const TIMES = [1, 10, 60, 600, 3600, 36_000, DAY];

/** How long each current may flow from cold until the winding is at its thermal class. */
export function warmingPicture(view: RigView): string {
  const { results, curve, top, slots } = view;
  if (curve.length === 0 || Number.isNaN(slots[SLOT.thermalClass]!)) return '';
  const inside = (time: number): number =>
    time === Number.POSITIVE_INFINITY ? Number.NaN : Math.max(SECOND, time);
  const points = curve.map(({ current, onTime }): Point => [current, inside(onTime)]);
  const time = results[Q.coil_on_time]!;
  const y: Axis = {
    title: 'time from cold to the thermal class',
    low: SECOND,
    high: DAY,
    spacing: 'log',
    ticks: TIMES.map((at) => ({ at, text: formatDuration(at) })),
  };
  const endless = curve.filter(({ onTime }) => onTime === Number.POSITIVE_INFINITY);
  const marks = endless.length > 0 ? [{ at: endless.at(-1)!.current, text: 'no limit up to here' }] : [];
  return lineChart({
    words: `Time of warming against current: ${time === Number.POSITIVE_INFINITY ? 'no limit' : measureText(time, UNITS.s)} at ${measureText(results[Q.current]!, UNITS.A)}.`,
    x: linearAxis('current (A)', top),
    y,
    curves: [{ points, ink: INK.second }],
    marks,
    ring: [results[Q.current]!, inside(time)],
  });
}
