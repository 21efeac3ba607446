import { HOTTEST } from '../kernel/coil-heat.ts';
import { ExponentialSteps } from '../math/exponential-steps.ts';
import { MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { HeatedDrive } from './heated-drive.ts';
import type { OperatingPoint } from './requested-law.ts';

/** A rig at one moment of its warming: SI. */
export interface WarmMoment {
  time: number;
  current: number;
  height: number;
  /** Means of the hottest winding, and its hottest place. */
  mean: number;
  hottest: number;
  plate: number;
  down: boolean;
  /** Ohm that the winding may gain before the coil comes down, at a held voltage. */
  margin: number;
}

/** Why a course ends. */
export type WarmEnd = 'time' | 'steady' | 'runs away';

/**
 * A design in time from the moment when it is switched on cold and the drive is left alone: its own law on temperatures (RigHeat)
 * with current and gap that follow them (HeatedDrive), by exponential steps. Bounces are left out: it is
 * always at the equilibrium of the moment.
 */
export class WarmCourse {
  readonly driven = new HeatedDrive();
  private readonly steps: ExponentialSteps;
  private readonly now: WarmMoment = {
    time: 0,
    current: 0,
    height: 0,
    mean: 0,
    hottest: 0,
    plate: 0,
    down: false,
    margin: Number.NaN,
  };

  private readonly loaded: boolean;

  /** @param loaded with the load of a heating rig, if it has one */
  constructor(loaded = false) {
    this.loaded = loaded;
    const { driven } = this;
    this.steps = new ExponentialSteps(MAX_WINDINGS + 1, (y, rate, decay) => {
      driven.drive(y);
      driven.bodies.heat.rates(y, rate, decay);
    });
  }

  /**
   * Follows it for `seconds`, or until nothing changes any more; `see` is shown every moment, one object overwritten, and ends
   * the course by returning true.
   * @param longest between two moments, s
   * @param stopsAt moments that must be among them, s, ascending
   */
  follow(
    point: OperatingPoint,
    seconds: number,
    longest: number,
    stopsAt: readonly number[],
    see: (moment: WarmMoment) => boolean,
  ): WarmEnd {
    const { driven, steps } = this;
    const { slots } = point.rig;
    driven.prepare(point);
    const { heat, count } = driven.bodies;
    const room = slots[SLOT.surroundings]!;
    steps.y.fill(room);
    if (heat.plateHeld) steps.y[count] = slots[SLOT.plateTemperature]!;
    else if (this.loaded && !Number.isNaN(slots[SLOT.loadWater]!)) {
      driven.bodies.load(point.rig);
      steps.y[count] = slots[SLOT.loadFrom]!;
    }
    steps.start(FIRST);
    heat.powered = true;
    let next = 0;
    for (let n = 0; n < MOST_STEPS; n++) {
      driven.drive(steps.y);
      heat.evaluate(steps.y);
      const moment = this.momentAt(slots[SLOT.standoff]!, count);
      if (moment.hottest > HOTTEST) return 'runs away';
      if (see(moment) || steps.time >= seconds) return 'time';
      while (next < stopsAt.length && stopsAt[next]! <= steps.time) next++;
      const stop = Math.min(seconds, stopsAt[next] ?? Number.POSITIVE_INFINITY);
      const before = steps.time;
      steps.advance(Math.min(longest, stop - steps.time), TOLERANCE);
      const change = steps.largestChange / (steps.time - before);
      if (change < STILL && next >= stopsAt.length && !(seconds < Number.POSITIVE_INFINITY)) return 'steady';
    }
    return 'steady';
  }

  private momentAt(standoff: number, count: number): WarmMoment {
    const { driven, steps, now } = this;
    const { heat } = driven.bodies;
    now.time = steps.time;
    now.current = driven.current;
    now.height = driven.gap - standoff;
    now.down = driven.down;
    now.margin = driven.margin;
    now.mean = 0;
    now.hottest = 0;
    for (let w = 0; w < count; w++) {
      now.mean = Math.max(now.mean, steps.y[w]!);
      now.hottest = Math.max(now.hottest, heat.windings[w]!.hottest);
    }
    now.plate = heat.plateHeld ? Number.NaN : steps.y[count]!;
    return now;
  }
}

/** s. */
const FIRST = 20;
/** K. */
const TOLERANCE = 0.5;
/** A rig that changes by less is steady: 1 K in three hours, K/s. */
const STILL = 1e-4;
const MOST_STEPS = 20_000;
