import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigTemplate } from '../model/study.ts';
import { createLaws } from './laws.ts';
import { WarmCourse, type WarmEnd, type WarmMoment } from './warm-course.ts';

/** What happens on the way, once each, at a time in s: between two moments along the straight line. */
export interface WarmEvent {
  readonly time: number;
  readonly what: 'thermal class' | 'lands' | 'load is warm' | 'fuse may blow' | 'fuse has blown';
}

/** A design's course in time, moment by moment. */
export interface Warming {
  readonly moments: readonly WarmMoment[];
  readonly events: readonly WarmEvent[];
  readonly end: WarmEnd | 'fuse';
  /** True where the supply voltage is held, false where the current is. */
  readonly voltageHeld: boolean;
}

/** Rows of a table that ends by itself: about this many. */
const ROWS = 200;

/** The course of a design without an end of its own is followed for a day at most. */
const DAY = 86_400;

/**
 * One design from the moment when its drive is set cold and left alone, for `seconds`, or until it is steady (null), or until
 * its fuse has blown at the latest. Null where the design has no operating point.
 */
export function followWarming(
  layout: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  seconds: number | null,
): Warming | null {
  const laws = createLaws(layout.plateLayers, layout.windings);
  laws.evaluate(slots);
  const point = laws.operatingPoint;
  if (point === null) return null;
  const limit = slots[SLOT.thermalClass]!;
  const blows = laws.results[Q.fuse_blows]!;
  const holds = laws.results[Q.fuse_holds]!;
  const to = slots[SLOT.loadTo]!;
  const isLoaded = !Number.isNaN(slots[SLOT.loadWater]!);
  const moments: WarmMoment[] = [];
  const events: WarmEvent[] = [];
  const once = (what: WarmEvent['what'], reached: boolean, time: () => number): void => {
    if (reached && !events.some((event) => event.what === what)) events.push({ time: time(), what });
  };
  let blown = false;
  const course = new WarmCourse(true);
  const end = course.follow(
    point,
    seconds ?? Number.POSITIVE_INFINITY,
    seconds === null ? LONGEST : Math.max(seconds / ROWS, 1e-3),
    [],
    (moment) => {
      const before = moments.at(-1);
      moments.push({ ...moment });
      const crossing = (over: (at: WarmMoment) => number) => () => crossingTime(before, moment, over);
      once(
        'thermal class',
        moment.hottest >= limit,
        crossing((at) => at.hottest - limit),
      );
      // its margin falls through zero
      once(
        'lands',
        moment.down && moments[0]!.down === false,
        crossing((at) => -at.margin),
      );
      const warm = to - NEAR;
      once(
        'load is warm',
        isLoaded && moment.plate >= warm,
        crossing((at) => at.plate - warm),
      );
      once('fuse may blow', moment.time > holds, () => holds);
      blown = moment.time >= blows;
      once('fuse has blown', blown, () => blows);
      return blown || moment.time >= DAY;
    },
  );
  return {
    moments,
    events: events.sort((a, b) => a.time - b.time),
    end: blown ? 'fuse' : end,
    voltageHeld: point.voltageHeld,
  };
}

/** When `over` passes zero between two moments; at the later one where it cannot be told, s. */
function crossingTime(
  before: WarmMoment | undefined,
  after: WarmMoment,
  over: (at: WarmMoment) => number,
): number {
  if (before === undefined) return after.time;
  const from = over(before);
  const fraction = from / (from - over(after));
  return fraction >= 0 && fraction <= 1 ? before.time + (after.time - before.time) * fraction : after.time;
}

/** Between two moments, s. */
const LONGEST = 120;
const NEAR = 0.05;
