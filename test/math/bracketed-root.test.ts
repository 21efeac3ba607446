import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bracketedRoot } from '../../src/math/bracketed-root.ts';

describe('bracketedRoot', () => {
  it('finds roots of smooth functions to the tolerance in few evaluations', () => {
    const cases: [(x: number) => number, number, number, number][] = [
      [(x) => x ** 3 - 2, 0, 5, Math.cbrt(2)],
      [(x) => Math.exp(x) - 5, -10, 10, Math.log(5)],
      [(x) => Math.cos(x), 0, 3, Math.PI / 2],
      [(x) => 300 - x ** 4 * 1e-8, 1, 1500, 3e10 ** 0.25],
    ];
    for (const [f, low, high, root] of cases) {
      let asked = 0;
      const counted = (x: number) => {
        asked++;
        return f(x);
      };
      const found = bracketedRoot(counted, low, high, f(low), f(high), 1e-9);
      expect(Math.abs(found - root)).toBeLessThan(1e-9);
      expect(asked).toBeLessThan(25);
    }
  });

  it('stays in the bracket and meets the tolerance for monotone functions however crooked', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.999, max: 0.999, noNaN: true }),
        fc.integer({ min: 1, max: 31 }),
        (root, power) => {
          const f = (x: number) => Math.sign(x - root) * Math.abs(x - root) ** (power / 5);
          const found = bracketedRoot(f, -1, 1, f(-1), f(1), 1e-9);
          // a high power underflows to a flat zero close to the root, where any point is a root
          expect(Math.abs(f(found)) < 1e-45 || Math.abs(found - root) <= 1e-9).toBe(true);
        },
      ),
      { seed: 3 },
    );
  });

  it('takes an end that is a root, and says NaN when the ends have one sign', () => {
    const f = (x: number) => x - 1;
    expect(bracketedRoot(f, 1, 2, 0, 1, 1e-9)).toBe(1);
    expect(bracketedRoot(f, 0, 1, -1, 0, 1e-9)).toBe(1);
    expect(bracketedRoot(f, 2, 3, 1, 2, 1e-9)).toBeNaN();
    expect(bracketedRoot(f, 0, 3, Number.NaN, 2, 1e-9)).toBeNaN();
  });
});
