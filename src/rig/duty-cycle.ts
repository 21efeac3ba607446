import { HOTTEST } from '../kernel/coil-heat.ts';
import { ExponentialSteps } from '../math/exponential-steps.ts';
import { MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import { HeatedDrive } from './heated-drive.ts';
import type { OperatingPoint, RequestedLaw } from './requested-law.ts';

/**
 * A rig that is on for a while and off for a while, all day: the periodic state. What it is at the start of a cycle is found
 * as the temperatures to which a cycle returns: cycle after cycle, each change divided by the share of it that a cycle
 * forgets, so that slow plates do not take a day. Three to six cycles suffice. Without a load; warm-up and cool-down as in
 * WarmCourse. Accuracy: 1 K against hundreds of cycles one after the other (test).
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
  private readonly start = new Float64Array(MAX_WINDINGS + 1);
  private readonly forgotten = new Float64Array(MAX_WINDINGS + 1);
  private readonly rate = new Float64Array(MAX_WINDINGS + 1);
  private readonly decay = new Float64Array(MAX_WINDINGS + 1);
  private coilPeak = 0;
  private platePeak = 0;
  private heightLeast = 0;
  private standoff = 0;

  constructor() {
    const { driven } = this;
    this.steps = new ExponentialSteps(MAX_WINDINGS + 1, (y, rate, decay) => {
      const { heat } = driven.bodies;
      if (heat.powered) driven.drive(y);
      heat.rates(y, rate, decay);
    });
  }

  solve(point: OperatingPoint): void {
    const { slots, results, status } = point.rig;
    const on = slots[SLOT.dutyOn]!;
    const off = slots[SLOT.dutyOff]!;
    if (Number.isNaN(on) || Number.isNaN(off)) return;
    const { driven, start, steps, forgotten } = this;
    driven.prepare(point);
    this.standoff = slots[SLOT.standoff]!;
    const { heat, count } = driven.bodies;
    start.fill(slots[SLOT.surroundings]!);
    if (heat.plateHeld) start[count] = slots[SLOT.plateTemperature]!;
    for (let n = 0; n < MOST_CYCLES; n++) {
      this.forget(on + off, count);
      if (!this.run(on, off)) return;
      let largest = 0;
      for (let i = 0; i <= count; i++) {
        const change = (steps.y[i]! - start[i]!) / forgotten[i]!;
        largest = Math.max(largest, Math.abs(change));
        start[i] = Math.min(HOTTEST, Math.max(100, start[i]! + change));
      }
      if (largest < CLOSE) break;
      if (n === MOST_CYCLES - 1) return;
    }
    results[Q.coil_peak] = this.coilPeak;
    if (!heat.plateHeld) results[Q.plate_peak] = this.platePeak;
    if (status === STATUS.lifts) results[Q.height_least] = this.heightLeast;
  }

  /** By how much of itself a departure from the periodic state shrinks in a cycle, by unknown. */
  private forget(period: number, count: number): void {
    const { driven, start, rate, decay, forgotten } = this;
    driven.bodies.heat.powered = true;
    driven.drive(start);
    driven.bodies.heat.rates(start, rate, decay);
    for (let i = 0; i <= count; i++) {
      forgotten[i] = decay[i] === 0 ? 1 : Math.max(LEAST, -Math.expm1(-decay[i]! * period));
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
    const { heat, count } = driven.bodies;
    steps.start(Math.min(length, 120));
    for (let n = 0; n < 1000; n++) {
      if (heat.powered) driven.drive(steps.y);
      heat.evaluate(steps.y);
      // off, no place of the winding gets hotter
      for (let w = 0; heat.powered && w < count; w++) {
        this.coilPeak = Math.max(this.coilPeak, heat.windings[w]!.hottest);
      }
      if (!(this.coilPeak < HOTTEST)) return false;
      this.platePeak = Math.max(this.platePeak, steps.y[count]!);
      if (heat.powered) this.heightLeast = Math.min(this.heightLeast, driven.gap - this.standoff);
      if (!(steps.time < length)) return true;
      steps.advance(length - steps.time, TOLERANCE);
    }
    return true;
  }
}

const MOST_CYCLES = 60;
/** K. */
const CLOSE = 0.2;
const TOLERANCE = 3;
const LEAST = 1e-3;
