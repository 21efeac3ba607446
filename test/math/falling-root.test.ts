import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fallingRoot } from '../../src/math/falling-root.ts';

function solve(f: (x: number) => number, low: number, high: number, tolerance: number) {
  let asked = 0;
  const counted = (x: number) => {
    asked++;
    return f(x);
  };
  const root = fallingRoot(
    counted,
    { low, high, fLow: f(low), fHigh: f(high) },
    low + (high - low) / 20,
    tolerance,
  );
  return { root, asked };
}

describe('fallingRoot', () => {
  it('meets heat balances to a thousandth of the last step in few evaluations', () => {
    const cases: [(excess: number) => number, number][] = [
      // convection alone, radiation alone, and a line
      [(e) => 100 - 2 * e ** 1.25, 50 ** 0.8],
      [(e) => 300 - ((e + 300) ** 4 - 300 ** 4) * 1e-8, (3e10 + 300 ** 4) ** 0.25 - 300],
      [(e) => 10 - 0.1 * e, 100],
    ];
    for (const [f, expected] of cases) {
      const { root, asked } = solve((T) => f(T - 300), 300, 1500, 1e-4);
      expect(Math.abs(root - 300 - expected)).toBeLessThan(1e-7);
      expect(asked).toBeLessThanOrEqual(8);
    }
  });

  it('finds the root of functions that fall however crookedly', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.999, max: 0.999, noNaN: true }),
        fc.integer({ min: 2, max: 12 }),
        (root, power) => {
          const f = (x: number) => Math.sign(root - x) * Math.abs(x - root) ** (power / 5);
          // beyond any law about the low end: the last step is a bisection or a secant nearly as short
          expect(Math.abs(solve(f, -1, 1, 1e-9).root - root)).toBeLessThan(1e-6);
        },
      ),
      { seed: 3 },
    );
  });

  it('has no answer, and not the last x, where the function has no value on the way', () => {
    const f = (x: number) => (x > 0.4 && x < 0.6 ? Number.NaN : 1 - 2 * x);
    expect(fallingRoot(f, { low: 0, high: 1, fLow: 1, fHigh: -1 }, 0.5, 1e-9)).toBe(Number.POSITIVE_INFINITY);
  });

  it('halves to the end what resists every law, though the tolerance is nothing', () => {
    const step = (x: number) => (x < 1 / 3 ? 1 : -1e-3);
    const { root, asked } = solve(step, 0, 1, 0);
    expect(Math.abs(root - 1 / 3)).toBeLessThan(1e-15);
    expect(asked).toBeLessThan(300);
  });

  it('takes an end that is a root, and says NaN where the function does not fall through zero', () => {
    const f = (x: number) => 1 - x;
    expect(fallingRoot(f, { low: 1, high: 2, fLow: 0, fHigh: -1 }, 1.5, 1e-9)).toBe(1);
    expect(fallingRoot(f, { low: 0, high: 1, fLow: 1, fHigh: 0 }, 0.5, 1e-9)).toBe(1);
    expect(fallingRoot(f, { low: 2, high: 3, fLow: -1, fHigh: -2 }, 2.5, 1e-9)).toBeNaN();
    expect(fallingRoot(f, { low: -1, high: 0, fLow: 2, fHigh: 1 }, -0.5, 1e-9)).toBeNaN();
    expect(fallingRoot(f, { low: 0, high: 3, fLow: Number.NaN, fHigh: -2 }, 1, 1e-9)).toBeNaN();
  });
});
