import { describe, expect, it } from 'vitest';
import { gaussOfPoints } from '../../src/math/gauss-of-points.ts';

const POINTS = Float64Array.from({ length: 90 }, (_, i) => (i + 0.5) / 30);
const WEIGHTS = POINTS.map((x) => x * Math.exp(-2 * x) * (1 + Math.sin(7 * x) ** 2));

function sum(points: Float64Array, weights: Float64Array, f: (x: number) => number): number {
  return points.reduce((total, x, i) => total + weights[i]! * f(x), 0);
}

describe('the Gauss rule of a weighted sum', () => {
  const rule = gaussOfPoints(POINTS, WEIGHTS, 8);

  it('sums every polynomial up to degree 15 as all points do, and no higher one', () => {
    for (let degree = 0; degree <= 15; degree++) {
      const all = sum(POINTS, WEIGHTS, (x) => x ** degree);
      expect(Math.abs(sum(rule.points, rule.weights, (x) => x ** degree) / all - 1)).toBeLessThan(1e-12);
    }
    const all = sum(POINTS, WEIGHTS, (x) => x ** 16);
    expect(Math.abs(sum(rule.points, rule.weights, (x) => x ** 16) / all - 1)).toBeGreaterThan(1e-9);
  });

  it('has points between the given ones, of positive weight', () => {
    expect(rule.points).toHaveLength(8);
    for (const x of rule.points) expect(x > POINTS[0]! && x < POINTS.at(-1)!).toBe(true);
    for (const weight of rule.weights) expect(weight).toBeGreaterThan(0);
  });

  it('is the points themselves where there are no more of them', () => {
    const few = gaussOfPoints(Float64Array.of(1, 2, 5), Float64Array.of(0.5, 0.25, 4), 8);
    const sorted = Array.from(few.points.keys()).sort((a, b) => few.points[a]! - few.points[b]!);
    // eigenvalues to some 1e-15 of the largest
    for (const [j, i] of sorted.entries()) {
      expect(few.points[i]).toBeCloseTo([1, 2, 5][j]!, 12);
      expect(few.weights[i]).toBeCloseTo([0.5, 0.25, 4][j]!, 12);
    }
  });

  it('has as many points in any unit', () => {
    for (const unit of [1e-9, 1e9]) {
      const scaled = gaussOfPoints(
        POINTS.map((x) => x * unit),
        WEIGHTS,
        8,
      );
      const points = scaled.points.map((x) => x / unit).sort();
      // rounding alone
      for (const [i, x] of rule.points.slice().sort().entries()) expect(points[i]! / x).toBeCloseTo(1, 9);
    }
  });

  it('takes negative weights for none', () => {
    const few = gaussOfPoints(Float64Array.of(1, 2, 5), Float64Array.of(0.5, -1e-3, 4), 8);
    expect(few.points).toHaveLength(2);
    expect(few.weights.reduce((total, weight) => total + weight)).toBeCloseTo(4.5, 12);
  });
});
