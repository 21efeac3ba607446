/** Writes rates of change at y. */
export type RatesOf = (y: Float64Array, rate: Float64Array) => void;

/**
 * Explicit Runge-Kutta steps of fifth order with an error of fourth: J. R. Dormand and P. J. Prince, J. Comput. Appl. Math. 6
 * (1980) 19-26, doi:10.1016/0771-050X(80)90013-3, table 2 (coefficients from memory; their row sums are a test). The last stage of
 * a step is the first of the next one.
 */
export class DormandPrince {
  readonly y: Float64Array;
  time = 0;
  /** Steps tried. */
  steps = 0;
  private readonly f: RatesOf;
  private readonly tolerance: number;
  private readonly before: Float64Array;
  private readonly k: Float64Array[];
  private next: number;
  private timeBefore = 0;

  /** @param tolerance of the error of a step: that part of 1 K, and of a temperature */
  constructor(start: Float64Array, first: number, tolerance: number, f: RatesOf) {
    this.y = start.slice();
    this.before = start.slice();
    this.f = f;
    this.tolerance = tolerance;
    this.next = first;
    this.k = Array.from({ length: 7 }, () => new Float64Array(start.length));
    f(this.y, this.k[6]!);
  }

  /** Rates at `y`. */
  get rates(): Float64Array {
    return this.k[6]!;
  }

  /** One step within tolerance, no longer than `longest`. */
  advance(longest: number): void {
    this.before.set(this.y);
    this.k[0]!.set(this.k[6]!);
    this.timeBefore = this.time;
    for (;;) {
      const h = Math.min(this.next, longest);
      const error = this.step(h);
      this.steps++;
      const factor = 0.9 * error ** -0.2;
      this.next = h * Math.min(5, Math.max(0.2, Number.isNaN(factor) ? 0.2 : factor));
      if (error <= 1 || h < 1e-12 * this.time) return;
    }
  }

  get lastLength(): number {
    return this.time - this.timeBefore;
  }

  /** The last step once more, of another length. */
  repeat(h: number): void {
    this.step(h);
  }

  private step(h: number): number {
    const { k, y, before } = this;
    for (let stage = 1; stage < 7; stage++) {
      const row = STAGES[stage - 1]!;
      for (let i = 0; i < y.length; i++) {
        let sum = 0;
        for (let j = 0; j < stage; j++) sum += row[j]! * k[j]![i]!;
        y[i] = before[i]! + h * sum;
      }
      this.f(y, k[stage]!);
    }
    let largest = 0;
    for (let i = 0; i < y.length; i++) {
      let sum = 0;
      for (let j = 0; j < 7; j++) sum += ERROR[j]! * k[j]![i]!;
      const error = Math.abs(h * sum) / (this.tolerance * (1 + Math.abs(y[i]!)));
      largest = error > largest || Number.isNaN(error) ? error : largest;
    }
    this.time = this.timeBefore + h;
    return Math.max(largest, 1e-10);
  }
}

export const STAGES: readonly (readonly number[])[] = [
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];

/** Fifth order less fourth. */
const ERROR = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];
