import { describe, expect, it } from 'vitest';
import { LocalLagrange } from '../../src/math/local-lagrange.ts';

const NODES = [0, 0.3, 1, 1.4, 2.5, 4];

function interpolate(nodes: readonly number[], f: (x: number) => number, x: number, count = 4): number {
  const rule = new LocalLagrange(count);
  rule.at(nodes, x);
  let sum = 0;
  for (let i = 0; i < count; i++) sum += rule.weight[i]! * f(nodes[rule.first + i]!);
  return sum;
}

describe('LocalLagrange', () => {
  it('is exact for cubics with four nodes and for lines with two, rising or falling', () => {
    const cubic = (x: number) => 2 - x + 3 * x * x - 0.5 * x ** 3;
    for (let x = 0; x <= 4; x += 0.07) {
      expect(interpolate(NODES, cubic, x)).toBeCloseTo(cubic(x), 10);
      expect(interpolate([...NODES].reverse(), cubic, x)).toBeCloseTo(cubic(x), 10);
      expect(interpolate(NODES, (y) => 3 - y, x, 2)).toBeCloseTo(3 - x, 12);
    }
  });

  it('gives the nodes themselves, is continuous there, and stays at the ends', () => {
    for (const node of NODES) {
      expect(interpolate(NODES, Math.sin, node)).toBeCloseTo(Math.sin(node), 12);
      const jump = interpolate(NODES, Math.sin, node + 1e-9) - interpolate(NODES, Math.sin, node - 1e-9);
      expect(Math.abs(jump)).toBeLessThan(1e-7);
    }
    expect(interpolate(NODES, Math.exp, -5)).toBe(1);
    expect(interpolate(NODES, Math.exp, 9)).toBeCloseTo(Math.exp(4), 9);
  });
});
