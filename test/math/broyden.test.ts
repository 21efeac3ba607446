import { describe, expect, it } from 'vitest';
import { Broyden } from '../../src/math/broyden.ts';

/** Steps until the next one is below `close`; null after 50. */
function solve(
  g: (x: Float64Array, out: Float64Array) => void,
  x: Float64Array,
  slopes: Float64Array,
  close: number,
): number | null {
  const broyden = new Broyden(x.length + 1);
  const values = new Float64Array(x.length);
  broyden.start(x.length, slopes);
  for (let n = 1; n <= 50; n++) {
    g(x, values);
    if (broyden.advance(x, values) < close) return n;
  }
  return null;
}

describe('Broyden', () => {
  it('solves a linear system of n unknowns in 2 n + 1 steps, however poor the slopes', () => {
    const x = new Float64Array(2);
    const steps = solve(
      ([a, b], out) => {
        out[0] = -0.9 * a! + 0.3 * b! + 5;
        out[1] = 0.2 * a! - 0.05 * b! + 1;
      },
      x,
      Float64Array.of(-1, -1),
      1e-9,
    );
    expect(steps).toBeLessThanOrEqual(5);
    // by Cramer's rule: 0.9 a - 0.3 b = 5, -0.2 a + 0.05 b = 1
    const determinant = 0.9 * 0.05 - 0.3 * 0.2;
    expect(x[0]).toBeCloseTo((5 * 0.05 + 0.3) / determinant, 6);
    expect(x[1]).toBeCloseTo((0.9 + 0.2 * 5) / determinant, 6);
  });

  it('is Newton’s method with the right slope, and the secant method after that', () => {
    const x = Float64Array.of(1);
    const steps = solve(
      ([a], out) => {
        out[0] = 2 - a! * a!;
      },
      x,
      Float64Array.of(-2),
      1e-8,
    );
    expect(x[0]).toBeCloseTo(Math.SQRT2, 9);
    // the secant method doubles its digits in three steps out of two
    expect(steps).toBeLessThanOrEqual(6);
  });

  it('forgets one problem at the start of the next', () => {
    const one = Float64Array.of(0);
    const other = Float64Array.of(0);
    const broyden = new Broyden(1);
    const slopes = Float64Array.of(-1);
    broyden.start(1, slopes);
    broyden.advance(one, Float64Array.of(3));
    broyden.advance(one, Float64Array.of(1));
    broyden.start(1, slopes);
    broyden.advance(other, Float64Array.of(3));
    expect(other[0]).toBe(3);
  });
});
