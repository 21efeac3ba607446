import { GRAVITY } from '../constants.ts';
import type { CoupledModes } from './coupled-modes.ts';

// Past 300 lines: one step of a motion, its landings and its energies share the state in hand.

/** A rig that moves: circuit, mass and what it lands on. SI. */
export interface MovingCoilRig {
  readonly mass: number;
  /** Viscous drag on what moves, N s/m. */
  readonly drag: number;
  /** Gap at rest, m; nothing comes nearer. */
  readonly standoff: number;
  /** Speed after a landing over speed before. */
  readonly restitution: number;
  /** Clamped: it does not move. */
  readonly held: boolean;
  /** Winding and series resistance, ohm. */
  readonly resistance: number;
  /** Of the windings without a plate, H. */
  readonly freeInductance: number;
  /** In series, F; NaN: none. */
  readonly capacitance: number;
}

/** What feeds the coil at a time, s: a voltage in V, or with `given` a current in A; `open`: the circuit is broken. */
export interface Feed {
  readonly given: boolean;
  at(time: number): number;
  open(time: number): boolean;
}

/** Where the energy went since the start, J. */
export interface EnergyAccount {
  supplied: number;
  windingLoss: number;
  plateLoss: number;
  dragLoss: number;
  landingLoss: number;
  /** Broken off with the circuit: what its current held. */
  switchLoss: number;
}

/** What a field that will hold fractions begins as: with 0, V8 would lay it out for whole numbers and compile everything again. */
export const FRACTION = Number.NaN;

/**
 * A coil and a plate that move against each other in time. Plate modes y_n (disc-modes) with couplings s_n(g), coil current
 * i, series capacitor v_C, gap g:
 *   y' + lambda y = -d/dt (s i),
 *   L0 i' + d/dt sum(s y) + R i + v_C = u(t), C v_C' = i,   or i(t) given,
 *   m g'' = i sum(y s') - m g_n - c g'.
 * Trapezoidal rule for fields and circuit, in which the current of the next instant follows from one linear equation;
 * Verlet's for the motion, whose next gap is known before. Second order in the step; at landings first.
 * On its standoff it rests until the force exceeds the weight; it lands with a coefficient of restitution. Where the
 * circuit opens, its current ends at once: the plate's jump with it.
 *
 * Energy: what the supply gives is winding loss, plate loss, drag, landings, field, capacitor and motion
 * (`EnergyAccount`, `stored`), to second order in the step.
 * Source: L. Verlet, Phys. Rev. 159 (1967) 98 for the motion; the coupled circuits are ours (see disc-plate).
 */
export class MovingCoil {
  time = FRACTION;
  gap: number;
  speed = FRACTION;
  current = FRACTION;
  /** Across winding and plate, without series capacitor; V. */
  voltage = FRACTION;
  capacitorVoltage = FRACTION;
  /** On the coil, away from the plate, N. */
  force = FRACTION;
  /** Loss in the plate over the last step, W. */
  plateLoss = FRACTION;
  resting = true;
  /** Speed of the last landing, m/s, and when; NaN before the first. */
  landingSpeed = Number.NaN;
  landingTime = Number.NaN;
  readonly energy: EnergyAccount = {
    supplied: FRACTION,
    windingLoss: FRACTION,
    plateLoss: FRACTION,
    dragLoss: FRACTION,
    landingLoss: FRACTION,
    switchLoss: FRACTION,
  };
  readonly y: Float64Array;
  private readonly rig: MovingCoilRig;
  private readonly modes: CoupledModes;
  private readonly feed: Feed;
  private readonly step: number;
  /** s at the gap of the last step. */
  private readonly before: Float64Array;
  /** (1 - lambda h / 2) / (1 + lambda h / 2) and 1 / (1 + lambda h / 2). */
  private readonly keep: Float64Array;
  private readonly take: Float64Array;
  /** sum s y. */
  private linked = FRACTION;
  private acceleration = FRACTION;
  /** How long before the end of the step it landed, s; 0 where it did not. */
  private rebound = FRACTION;
  private steps = 0;

  /** At rest on its standoff, without currents. @param step s */
  constructor(rig: MovingCoilRig, modes: CoupledModes, feed: Feed, step: number) {
    this.rig = rig;
    this.modes = modes;
    this.feed = feed;
    this.step = step;
    this.gap = rig.standoff;
    this.time = 0;
    this.voltage = 0;
    this.capacitorVoltage = 0;
    this.force = 0;
    this.plateLoss = 0;
    const { energy } = this;
    energy.supplied = 0;
    energy.windingLoss = 0;
    energy.plateLoss = 0;
    energy.dragLoss = 0;
    energy.landingLoss = 0;
    energy.switchLoss = 0;
    const { count, rates } = modes;
    this.y = new Float64Array(count);
    this.before = new Float64Array(count);
    this.keep = Float64Array.from(rates, (rate) => (1 - (rate * step) / 2) / (1 + (rate * step) / 2));
    this.take = Float64Array.from(rates, (rate) => 1 / (1 + (rate * step) / 2));
    this.place(rig.standoff);
  }

  /** Puts it at a gap with all currents zero; afloat unless that is the standoff. */
  place(gap: number, speed = 0): void {
    this.gap = gap;
    this.speed = speed;
    this.resting = this.rig.held || (gap <= this.rig.standoff && speed <= 0);
    this.modes.evaluate(gap);
    this.before.set(this.modes.coupling);
    this.y.fill(0);
    this.current = 0;
    this.linked = 0;
    this.acceleration = this.resting ? 0 : -GRAVITY - (this.rig.drag * speed) / this.rig.mass;
  }

  /**
   * Puts it at a gap, speed zero, in the steady state of a current sqrt(2) I cos(wt + phase) there.
   * @param rms A
   */
  placeSteady(gap: number, rms: number, omega: number, phase: number): void {
    const { modes, rig, y } = this;
    this.place(gap);
    const re = Math.SQRT2 * rms * Math.cos(phase);
    const im = Math.SQRT2 * rms * Math.sin(phase);
    this.current = re;
    let pull = 0;
    for (let n = 0; n < modes.count; n++) {
      // -s jw / (jw + lambda) times the current
      const rate = modes.rates[n]!;
      const d = omega * omega + rate * rate;
      const gain = -modes.coupling[n]! / d;
      y[n] = gain * (omega * omega * re - omega * rate * im);
      this.linked += modes.coupling[n]! * y[n]!;
      pull += modes.slope[n]! * y[n]!;
    }
    if (!Number.isNaN(rig.capacitance)) this.capacitorVoltage = im / (omega * rig.capacitance);
    this.force = this.current * pull;
    this.acceleration = this.force / rig.mass - GRAVITY;
  }

  /** Energy in field, capacitor and motion now, J; the height from the standoff. */
  get stored(): number {
    const { rig, y, current } = this;
    let own = 0;
    for (let n = 0; n < y.length; n++) own += y[n]! * y[n]!;
    const field = (rig.freeInductance * current * current + own) / 2 + current * this.linked;
    const charge = Number.isNaN(rig.capacitance) ? 0 : (rig.capacitance * this.capacitorVoltage ** 2) / 2;
    const motion = (rig.mass * this.speed ** 2) / 2 + rig.mass * GRAVITY * (this.gap - rig.standoff);
    return field + charge + motion;
  }

  /** One step on. */
  advance(): void {
    const { rig, modes, feed, step, y, before, keep, take, energy } = this;
    const { coupling, slope, rates, count } = modes;
    this.steps++;
    const time = this.steps * step;
    this.move();
    modes.evaluate(this.gap);
    const last = this.current;
    const current = this.nextCurrent(time);
    const mean = (last + current) / 2;
    let linked = 0;
    let pull = 0;
    let loss = 0;
    for (let n = 0; n < count; n++) {
      const s = coupling[n]!;
      const old = y[n]!;
      const next = keep[n]! * old - take[n]! * (s * current - before[n]! * last);
      const middle = (old + next) / 2;
      loss += rates[n]! * middle * middle;
      y[n] = next;
      linked += s * next;
      pull += slope[n]! * next;
      before[n] = s;
    }
    const change = rig.freeInductance * (current - last) + linked - this.linked;
    this.voltage = change / step + rig.resistance * mean;
    energy.plateLoss += loss * step;
    energy.windingLoss += rig.resistance * mean * mean * step;
    const across = this.voltage + this.charge(mean);
    // a circuit that opens gives its energy to the switch, not to the supply
    if (feed.open(time)) energy.switchLoss -= across * mean * step;
    else energy.supplied += across * mean * step;
    this.plateLoss = loss;
    this.linked = linked;
    this.current = current;
    this.force = current * pull;
    this.time = time;
    this.accelerate();
  }

  /** The next gap, by Verlet. */
  private move(): void {
    const { rig, step } = this;
    this.rebound = 0;
    if (this.resting) return;
    const next = this.gap + step * (this.speed + (step / 2) * this.acceleration);
    if (next >= rig.standoff) {
      this.gap = next;
      return;
    }
    // falling: the first root of gap + v t + a t^2 / 2 = standoff
    const drop = this.gap - rig.standoff;
    const impact = Math.sqrt(Math.max(0, this.speed ** 2 - 2 * this.acceleration * drop));
    const within = Math.min(step, Math.max(0, (2 * drop) / Math.max(impact - this.speed, 1e-300)));
    const back = rig.restitution * impact;
    this.energy.landingLoss += (rig.mass * (impact * impact - back * back)) / 2;
    this.landingSpeed = impact;
    this.landingTime = this.time + within;
    const left = step - within;
    if (back < 2 * GRAVITY * step) {
      this.energy.landingLoss += (rig.mass * back * back) / 2;
      this.resting = true;
      this.speed = 0;
      this.gap = rig.standoff;
      this.rebound = left;
      return;
    }
    this.speed = back;
    this.gap = rig.standoff + back * left;
    this.rebound = Math.max(left, 1e-300);
  }

  private accelerate(): void {
    const { rig, step, rebound } = this;
    const free = this.force / rig.mass - GRAVITY;
    if (this.resting) {
      this.acceleration = 0;
      if (!rig.held && free > 0) {
        this.resting = false;
        this.acceleration = free;
      }
      return;
    }
    const span = rebound > 0 ? rebound : step;
    const half = span / 2;
    const friction = rig.drag / rig.mass;
    // after a landing what pushed before counts no more
    const first = rebound > 0 ? free - friction * this.speed : this.acceleration;
    const old = this.speed;
    this.speed = (old + half * (first + free)) / (1 + half * friction);
    this.acceleration = free - friction * this.speed;
    this.energy.dragLoss += rig.drag * ((old + this.speed) / 2) ** 2 * span;
  }

  private nextCurrent(time: number): number {
    const { rig, modes, feed, step, y, before, keep, take } = this;
    if (feed.open(time)) return 0;
    if (feed.given) return feed.at(time);
    const { coupling, count } = modes;
    const { current } = this;
    let fixed = 0;
    let screened = 0;
    for (let n = 0; n < count; n++) {
      const s = coupling[n]!;
      fixed += s * (keep[n]! * y[n]! + take[n]! * before[n]! * current);
      screened += take[n]! * s * s;
    }
    let against = rig.freeInductance - screened + (rig.resistance * step) / 2;
    let given = rig.freeInductance * current - fixed + this.linked - (rig.resistance * step * current) / 2;
    if (!Number.isNaN(rig.capacitance)) {
      const quarter = (step * step) / (4 * rig.capacitance);
      against += quarter;
      given -= step * this.capacitorVoltage + quarter * current;
    }
    return (given + (step / 2) * (feed.at(time - step) + feed.at(time))) / against;
  }

  /** Charges the capacitor with the mean current of a step; returns its mean voltage. */
  private charge(mean: number): number {
    const { rig, step } = this;
    if (Number.isNaN(rig.capacitance)) return 0;
    const old = this.capacitorVoltage;
    this.capacitorVoltage = old + (mean * step) / rig.capacitance;
    return (old + this.capacitorVoltage) / 2;
  }
}
