import { describe, expect, it } from 'vitest';
import { nearestPoint } from '../../src/math/least-distance.ts';
import { type QuadraticProgram, solveQuadratic } from '../../src/math/quadratic-program.ts';
import { createRandom } from '../../src/math/random.ts';

const row = (...numbers: number[]) => Float64Array.from(numbers);

describe('the nearest point within linear inequalities', () => {
  it('is the origin where that meets them', () => {
    expect([...nearestPoint([row(1, 2)], [-1], 2)!.point]).toEqual([0, 0]);
  });

  it('is the foot of the perpendicular on one boundary', () => {
    const { point, multipliers } = nearestPoint([row(3, 4)], [10], 2)!;
    expect(point[0]).toBeCloseTo(1.2, 13);
    expect(point[1]).toBeCloseTo(1.6, 13);
    expect(multipliers[0]).toBeCloseTo(0.4, 13);
  });

  it('is a corner where two boundaries meet, and does not exist between two that exclude each other', () => {
    const corner = nearestPoint([row(1, 0), row(0, 1), row(1, 1)], [2, 3, 1], 2)!;
    expect([...corner.point].map((x) => Number(x.toFixed(12)))).toEqual([2, 3]);
    expect(corner.multipliers[2]).toBe(0);
    expect(nearestPoint([row(1, 0), row(-1, 0)], [1, 0], 2)).toBeNull();
  });
});

/** A random program of which one point is known to meet all inequalities. */
function program(seed: number): QuadraticProgram {
  const random = createRandom(seed);
  const number = () => 2 * random.unit() - 1;
  const n = 1 + random.below(8);
  const root = Float64Array.from({ length: n * n }, number);
  const hessian = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = i === j ? 0.1 : 0;
      for (let k = 0; k < n; k++) sum += root[i * n + k]! * root[j * n + k]!;
      hessian[i * n + j] = sum;
    }
  }
  const inside = Float64Array.from({ length: n }, number);
  const rows = Array.from({ length: random.below(3 * n + 1) }, () =>
    Float64Array.from({ length: n }, number),
  );
  const bounds = rows.map((r) => r.reduce((sum, x, i) => sum + x * inside[i]!, 0) - random.unit());
  return { hessian, gradient: Float64Array.from({ length: n }, () => 5 * number()), rows, bounds };
}

describe('quadratic program', () => {
  it('meets the conditions of Karush, Kuhn and Tucker on 200 random ones', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const { hessian, gradient, rows, bounds } = program(seed);
      const n = gradient.length;
      const { step, multipliers } = solveQuadratic({ hessian, gradient, rows, bounds })!;
      for (let i = 0; i < n; i++) {
        let slope = gradient[i]!;
        for (let k = 0; k < n; k++) slope += hessian[i * n + k]! * step[k]!;
        rows.forEach((r, j) => {
          slope -= multipliers[j]! * r[i]!;
        });
        // multipliers and steps are up to some hundreds
        expect(Math.abs(slope)).toBeLessThan(1e-8);
      }
      rows.forEach((r, j) => {
        const room = r.reduce((sum, x, i) => sum + x * step[i]!, 0) - Number(bounds[j]);
        expect(room).toBeGreaterThan(-1e-9);
        expect(multipliers[j]! >= 0).toBe(true);
        expect(Math.abs(multipliers[j]! * room)).toBeLessThan(1e-7);
      });
    }
  });

  it('has no answer where no step meets the inequalities', () => {
    const [hessian, gradient] = [row(1, 0, 0, 1), row(1, 1)];
    expect(solveQuadratic({ hessian, gradient, rows: [row(1, 1), row(-1, -1)], bounds: [1, 0] })).toBeNull();
  });
});
