import { HOTTEST } from '../kernel/coil-heat.ts';
import { HOTTEST_PLATE } from '../kernel/plate-heat.ts';
import { Broyden } from '../math/broyden.ts';
import { ExponentialSteps } from '../math/exponential-steps.ts';
import { MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import { HeatedDrive } from './heated-drive.ts';
import type { OperatingPoint, RequestedLaw } from './requested-law.ts';

/**
 * A rig that is on for a while and off for a while, all day: the periodic state. What it is at the start of a cycle is found
 * as the temperatures to which a cycle returns, by Broyden's method on what a cycle changes, so that slow plates do not
 * take a day: three to five cycles suffice. Without a load; warm-up and cool-down as in WarmCourse.
 * Accuracy: 1 K against hundreds of cycles one after the other (test).
 */
export const DUTY_CYCLE: RequestedLaw = {
  quantities: ['coil_peak', 'plate_peak', 'height_least'],
  create() {
    const cycle = new Cycle();
    return (point) => cycle.solve(point);
  },
};

class Cycle {
  private readonly driven = new HeatedDrive();
  private readonly steps: ExponentialSteps;
  private readonly broyden = new Broyden(MAX_WINDINGS + 1);
  private readonly start = new Float64Array(MAX_WINDINGS + 1);
  private readonly change = new Float64Array(MAX_WINDINGS + 1);
  private readonly slopes = new Float64Array(MAX_WINDINGS + 1);
  private readonly rate = new Float64Array(MAX_WINDINGS + 1);
  private readonly decay = new Float64Array(MAX_WINDINGS + 1);
  private coilPeak = 0;
  private platePeak = 0;
  private heightLeast = 0;
  private standoff = 0;
  /** Whether the next rates are those at the beginning of a step. */
  private isBeginning = false;

  constructor() {
    const { driven } = this;
    this.steps = new ExponentialSteps(MAX_WINDINGS + 1, (y, rate, decay) => {
      const { heat } = driven.bodies;
      if (heat.powered) driven.drive(y);
      heat.rates(y, rate, decay);
      if (this.isBeginning) this.note(y);
      this.isBeginning = false;
    });
  }

  solve(point: OperatingPoint): void {
    const { slots, results, status } = point.rig;
    const on = slots[SLOT.dutyOn]!;
    const off = slots[SLOT.dutyOff]!;
    if (Number.isNaN(on) || Number.isNaN(off)) return;
    const { driven, start, steps, change, broyden } = this;
    driven.prepare(point);
    this.standoff = slots[SLOT.standoff]!;
    const { heat, count } = driven.bodies;
    const room = slots[SLOT.surroundings]!;
    this.guess(on, off, room);
    if (heat.plateHeld) start[count] = slots[SLOT.plateTemperature]!;
    broyden.start(count + 1, this.slopes);
    for (let n = 0; ; n++) {
      if (n === MOST_CYCLES || !this.run(on, off)) return;
      for (let i = 0; i <= count; i++) change[i] = steps.y[i]! - start[i]!;
      const largest = broyden.advance(start, change);
      if (largest < CLOSE) break;
      for (let i = 0; i <= count; i++) start[i] = Math.min(HOTTEST, Math.max(COLDEST, start[i]!));
    }
    results[Q.coil_peak] = this.coilPeak;
    if (!heat.plateHeld) results[Q.plate_peak] = this.platePeak;
    if (status === STATUS.lifts) results[Q.height_least] = this.heightLeast;
  }

  /**
   * Temperatures at the start of a cycle and how a cycle's change depends on them, as though each body decayed by itself
   * toward where its first rate would lead: with a = on / tau and b = off / tau
   *   excess = rate tau (e^a - 1) / (e^(a + b) - 1),   slope = e^-(a + b) - 1.
   */
  private guess(on: number, off: number, room: number): void {
    const { driven, start, rate, decay, slopes } = this;
    const { heat, count } = driven.bodies;
    heat.powered = true;
    start.fill(room);
    driven.drive(start);
    heat.rates(start, rate, this.change);
    // decays at a usual rise: at none convection is none
    for (let i = 0; i <= count; i++) start[i] = room + (i < count ? USUAL_RISE : USUAL_RISE / 3);
    heat.rates(start, this.change, decay);
    for (let i = 0; i <= count; i++) {
      const d = decay[i]!;
      slopes[i] = d === 0 ? -1 : Math.min(-LEAST, Math.expm1(-d * (on + off)));
      const left = Math.exp(-d * off) - Math.exp(-d * (on + off));
      start[i] = room + (d === 0 ? 0 : Math.min(MOST_RISE, ((rate[i]! / d) * left) / -slopes[i]!));
    }
  }

  /** One cycle from `start`; false where some place gets beyond HOTTEST. */
  private run(on: number, off: number): boolean {
    const { steps, driven } = this;
    const { heat } = driven.bodies;
    steps.y.set(this.start);
    this.coilPeak = 0;
    this.platePeak = 0;
    this.heightLeast = Number.POSITIVE_INFINITY;
    heat.powered = true;
    if (!this.phase(on)) return false;
    heat.powered = false;
    driven.rest();
    return this.phase(off);
  }

  private phase(length: number): boolean {
    const { steps, driven } = this;
    const { heat } = driven.bodies;
    steps.start(Math.min(length, FIRST));
    for (let n = 0; n < MOST_STEPS && steps.time < length; n++) {
      this.isBeginning = true;
      steps.advance(length - steps.time, TOLERANCE);
      if (!(this.coilPeak < HOTTEST && this.platePeak < HOTTEST_PLATE)) return false;
    }
    if (heat.powered) {
      driven.drive(steps.y);
      heat.evaluate(steps.y);
    }
    this.note(steps.y);
    return this.coilPeak < HOTTEST;
  }

  /** What counts of a moment whose heat was evaluated just now; off, no place of the winding gets hotter. */
  private note(y: Float64Array): void {
    const { driven } = this;
    const { heat, count } = driven.bodies;
    this.platePeak = Math.max(this.platePeak, y[count]!);
    if (!heat.powered) return;
    for (let w = 0; w < count; w++) this.coilPeak = Math.max(this.coilPeak, heat.windings[w]!.hottest);
    this.heightLeast = Math.min(this.heightLeast, driven.gap - this.standoff);
  }
}

const MOST_CYCLES = 60;
const MOST_STEPS = 1000;
/** K. */
const CLOSE = 0.2;
const TOLERANCE = 3;
const USUAL_RISE = 60;
const MOST_RISE = 400;
const COLDEST = 1;
/** s. */
const FIRST = 120;
/** A cycle forgets no less than this share. */
const LEAST = 1e-3;
