import { decay as falling } from './decay.ts';

/** Writes rates of change and, where wanted, estimated decay rates (1/s, >= 0) at y. */
export type Rates = (y: Float64Array, rate: Float64Array, decay: Float64Array | null) => void;

/**
 * Steps in time of y' = f(y) where each unknown tends to some value at a rate of its own, as warm bodies do: the
 * exponential Runge-Kutta method of second order,
 *   a = y + h phi1(l h) f(y),   y' = a + h phi2(l h) (f(a) - f(y) + l (a - y)),
 *   phi1(z) = (1 - e^-z) / z,   phi2(z) = (z - 1 + e^-z) / z^2,
 * with l any estimate of the decay rates (1/s, >= 0). It is exact for linear uncoupled decay at the rates l, of second
 * order otherwise, and stable for steps far beyond the fastest decay.
 * The second term, as long as `tolerance` allows, sets the step; what is left is of third order.
 * Source: S. M. Cox and P. C. Matthews, J. Comput. Phys. 176 (2002) 430, doi:10.1006/jcph.2002.6995, ETD2RK (from memory).
 */
export class ExponentialSteps {
  readonly y: Float64Array;
  /** Seconds since `start`. */
  time = Number.NaN;
  private readonly before: Float64Array;
  private readonly stage: Float64Array;
  private readonly rate: Float64Array;
  private readonly decay: Float64Array;
  private readonly stageRate: Float64Array;
  private readonly phi: Float64Array;
  private count: number;
  private next = Number.NaN;
  private timeBefore = Number.NaN;
  private readonly f: Rates;

  /** @param size unknowns at most */
  constructor(size: number, f: Rates) {
    this.f = f;
    this.count = size;
    this.y = new Float64Array(size);
    this.before = new Float64Array(size);
    this.stage = new Float64Array(size);
    this.rate = new Float64Array(size);
    this.decay = new Float64Array(size);
    this.stageRate = new Float64Array(size);
    this.phi = new Float64Array(size);
  }

  /** From what stands in the first `count` places of `y`, with a first step of this length. */
  start(first: number, count = this.y.length): void {
    this.count = count;
    this.time = 0;
    this.next = first;
  }

  /** One step, no longer than `longest`. */
  advance(longest: number, tolerance: number): void {
    for (let i = 0; i < this.count; i++) this.before[i] = this.y[i]!;
    this.timeBefore = this.time;
    this.f(this.before, this.rate, this.decay);
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      const step = Math.min(this.next, longest);
      const bend = this.step(step);
      const factor = SAFETY * Math.sqrt(tolerance / bend);
      this.next = step * Math.min(GROW, Math.max(SHRINK, factor));
      if (bend <= tolerance) return;
    }
  }

  /** The last step once more, of another length. */
  repeat(length: number): void {
    this.step(length);
  }

  /** Of any unknown in the last step. */
  get largestChange(): number {
    let largest = 0;
    for (let i = 0; i < this.count; i++) {
      largest = Math.max(largest, Math.abs(this.y[i]! - this.before[i]!));
    }
    return largest;
  }

  get lastLength(): number {
    return this.time - this.timeBefore;
  }

  /** The largest second term, in the unit of y. */
  private step(h: number): number {
    const { count, y, before, stage, rate, decay, stageRate, phi } = this;
    for (let i = 0; i < count; i++) {
      const z = decay[i]! * h;
      const first = z > SMALL ? (1 - falling(z)) / z : 1 - z * (1 / 2 - z * (1 / 6 - z / 24));
      phi[i] = first;
      stage[i] = before[i]! + h * first * rate[i]!;
    }
    this.f(stage, stageRate, null);
    let largest = 0;
    for (let i = 0; i < count; i++) {
      const z = decay[i]! * h;
      const weight = z > SMALL ? (1 - phi[i]!) / z : 1 / 2 - z * (1 / 6 - z / 24);
      const term = h * weight * (stageRate[i]! - rate[i]! + decay[i]! * (stage[i]! - before[i]!));
      y[i] = stage[i]! + term;
      if (Math.abs(term) > largest) largest = Math.abs(term);
    }
    this.time = this.timeBefore + h;
    return largest;
  }
}

const ATTEMPTS = 12;
const SAFETY = 0.9;
const GROW = 4;
const SHRINK = 0.2;
/** Below this the series are better: their first terms left out are below 1e-7. */
const SMALL = 0.03;
