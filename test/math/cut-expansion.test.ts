import { describe, expect, it } from 'vitest';
import { CutExpansion } from '../../src/math/cut-expansion.ts';
import { createRandom } from '../../src/math/random.ts';

function expand(
  degrees: readonly number[],
  functions: readonly ((u: Float64Array) => number)[],
): CutExpansion {
  const expansion = new CutExpansion();
  expansion.prepare(degrees);
  const { points, pointCount } = expansion;
  const values = new Float64Array(pointCount * functions.length);
  for (let p = 0; p < pointCount; p++) {
    const u = points.slice(p * degrees.length, (p + 1) * degrees.length);
    functions.forEach((f, i) => {
      values[p * functions.length + i] = f(u);
    });
  }
  expansion.fit(values, functions.length);
  return expansion;
}

function randomPoints(variables: number, count: number): Float64Array[] {
  const random = createRandom(3);
  return Array.from({ length: count }, () =>
    Float64Array.from({ length: variables }, () => 2 * random.unit() - 1),
  );
}

describe('CutExpansion', () => {
  it('is exact for what it is made of, each variable to its own degree', () => {
    const f = ([a, b, c]: Float64Array) =>
      2 - a! + 3 * a! * a! + 0.5 * b! ** 3 - 2 * b! ** 4 + c! + 4 * a! * b! - b! * c! + 7 * a! * c!;
    const g = ([a, b]: Float64Array) => b! ** 2 - a!;
    const expansion = expand([2, 4, 2], [f, g]);
    const out = new Float64Array(2);
    for (const u of randomPoints(3, 50)) {
      expansion.evaluate(u, out);
      expect(Math.abs(out[0]! - f(u))).toBeLessThan(1e-13);
      expect(Math.abs(out[1]! - g(u))).toBeLessThan(1e-13);
    }
  });

  it('takes one point a term', () => {
    const expansion = new CutExpansion();
    expansion.prepare([2, 2, 4]);
    expect(expansion.pointCount).toBe(1 + 8 + 3);
  });

  it('leaves an error of third order in the width of the box', () => {
    const error = (half: number) => {
      const f = ([a, b]: Float64Array) => Math.exp(half * a! - 2 * half * b!) / (1 + half * (a! + b!));
      const out = new Float64Array(1);
      const expansion = expand([2, 2], [f]);
      return Math.max(
        ...randomPoints(2, 200).map((u) => {
          expansion.evaluate(u, out);
          return Math.abs(out[0]! - f(u));
        }),
      );
    };
    // 8 for each halving, were there no fourth order
    for (const half of [0.1, 0.05]) {
      expect(error(half) / error(half / 2)).toBeGreaterThan(6);
      expect(error(half) / error(half / 2)).toBeLessThan(11);
    }
    expect(error(0.05)).toBeLessThan(2e-3);
  });

  it('is a constant without variables', () => {
    const out = new Float64Array(1);
    expand([], [() => 5]).evaluate(new Float64Array(0), out);
    expect(out[0]).toBe(5);
  });
});
