/**
 * Root of g(x) for a few unknowns when g is nearly linear: Broyden's method. Steps -H g with H, an estimate of the inverse of
 * the Jacobian, corrected after each step so that it explains what that step did to g:
 *   H += (dx - H dg) dx^T H / (dx^T H dg).
 * Converges faster than linearly; where g is linear, in twice as many steps as there are unknowns at most.
 * Source: C. G. Broyden, Math. Comp. 19 (1965) 577, doi:10.1090/S0025-5718-1965-0198670-6, first method, by the formula of
 * Sherman and Morrison (from memory).
 */
export class Broyden {
  private readonly inverse: Float64Array;
  private readonly step: Float64Array;
  private readonly before: Float64Array;
  private readonly change: Float64Array;
  private readonly left: Float64Array;
  private readonly size: number;
  private count = 0;
  private isFirst = true;

  /** @param size unknowns at most */
  constructor(size: number) {
    this.size = size;
    this.inverse = new Float64Array(size * size);
    this.step = new Float64Array(size);
    this.before = new Float64Array(size);
    this.change = new Float64Array(size);
    this.left = new Float64Array(size);
  }

  /** @param slopes estimates of dg_i/dx_i, none of them 0 */
  start(count: number, slopes: Float64Array): void {
    this.count = count;
    this.isFirst = true;
    this.inverse.fill(0);
    for (let i = 0; i < count; i++) this.inverse[i * this.size + i] = 1 / slopes[i]!;
  }

  /** Moves x by the next step from g there; returns the largest part of the step. */
  advance(x: Float64Array, g: Float64Array): number {
    const { count, size, inverse, step, before } = this;
    if (!this.isFirst) this.correct(g);
    this.isFirst = false;
    let largest = 0;
    for (let i = 0; i < count; i++) {
      let sum = 0;
      for (let j = 0; j < count; j++) sum -= inverse[i * size + j]! * g[j]!;
      step[i] = sum;
      x[i] = x[i]! + sum;
      before[i] = g[i]!;
      largest = Math.max(largest, Math.abs(sum));
    }
    return largest;
  }

  private correct(g: Float64Array): void {
    const { count, size, inverse, step, before, change, left } = this;
    let scale = 0;
    for (let i = 0; i < count; i++) {
      let sum = 0;
      let turned = 0;
      for (let j = 0; j < count; j++) {
        sum += inverse[i * size + j]! * (g[j]! - before[j]!);
        turned += step[j]! * inverse[j * size + i]!;
      }
      change[i] = sum;
      left[i] = turned;
      scale += step[i]! * sum;
    }
    // a step that changed nothing corrects nothing
    if (scale === 0) return;
    for (let i = 0; i < count; i++) {
      const along = (step[i]! - change[i]!) / scale;
      for (let j = 0; j < count; j++) inverse[i * size + j]! += along * left[j]!;
    }
  }
}
