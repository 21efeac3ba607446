import { describe, expect, it } from 'vitest';
import { type Spot, stepQuadratically } from '../../src/plan/quadratic-steps.ts';

type At = (x: Float64Array) => readonly [cost: number, ...gaps: number[]];

/** Steps from a point; every spot evaluated, the best of those that meet all limits, and whether steps ended at a least. */
function steps(of: At, from: readonly number[], cell = 1e-12) {
  const spots: Spot[] = [];
  const evaluate = (point: Float64Array): Spot | null => {
    const at = point.map((x) => Math.round(x / cell) * cell);
    const [cost, ...gaps] = of(at);
    if (Number.isNaN(cost)) return null;
    const spot = { at, cost, gaps: Float64Array.from(gaps) };
    spots.push(spot);
    return spot;
  };
  const start = evaluate(Float64Array.from(from))!;
  const problem = { evaluate, cells: (x: Float64Array) => x.map(() => cell) };
  const ended = stepQuadratically(problem, { start, radius: 0.1, value: 1e-14, position: 1e-9 });
  const met = spots.filter(({ gaps }) => gaps.every((gap) => gap <= 0));
  const best = met.reduce<Spot | null>((a, b) => (a && a.cost <= b.cost ? a : b), null);
  return { spots, best, ended };
}

/** Within two circles that overlap in a lens, whose corner is the least of the cost. */
const lens: At = ([x, y]) => [
  x! + 0.3 * y!,
  (x! - 0.7) ** 2 + (y! - 0.5) ** 2 - 0.16,
  (x! - 0.4) ** 2 + (y! - 0.8) ** 2 - 0.09,
];

describe('quadratic steps', () => {
  it('end in the corner of two curved limits after a few dozen evaluations', () => {
    const { spots, best, ended } = steps(lens, [0.55, 0.7]);
    // where the circles cross on the left: of the two solutions, by hand, the one with the lower cost
    const [x, y] = crossing();
    expect(ended).toBe(true);
    expect(best!.at[0]).toBeCloseTo(x, 8);
    expect(best!.at[1]).toBeCloseTo(y, 8);
    expect(spots.length).toBeLessThan(60);
  });

  it('find the way back to the limits from outside', () => {
    const { best } = steps(lens, [0.05, 0.05]);
    expect(best!.cost).toBeCloseTo(crossing()[0] + 0.3 * crossing()[1], 8);
  });

  it('end at the bottom of a skew bowl, at a bound where that is beyond one', () => {
    const bowl =
      (bottom: number): At =>
      ([x, y]) => [(x! - bottom) ** 2 + 10 * (y! - 0.5 - 0.4 * (x! - bottom)) ** 2];
    const inside = steps(bowl(0.3), [0.9, 0.1]);
    expect(inside.ended).toBe(true);
    // slopes reach a millionth to each side
    expect(inside.best!.cost).toBeLessThan(1e-10);
    const { best } = steps(bowl(-0.5), [0.9, 0.1]);
    // y follows x = 0, the nearest to the bottom
    expect([...best!.at].map((x) => x.toFixed(6))).toEqual(['0.000000', '0.700000']);
  });

  it('keep the distance from limits that the rounding of values takes', () => {
    const cell = 1e-4;
    const { best } = steps(lens, [0.55, 0.7], cell);
    const exact = crossing()[0] + 0.3 * crossing()[1];
    expect(best!.gaps.every((gap) => gap <= 0)).toBe(true);
    // the circles cross at an angle: some cells of room
    expect(best!.cost - exact).toBeLessThan(10 * cell);
  });

  it('do not claim a least where designs cannot be evaluated', () => {
    const { ended } = steps(([x]) => [x! === 0.5 ? 1 : Number.NaN], [0.5]);
    expect(ended).toBe(false);
  });
});

/** The crossing of the two circles of the lens with the lower cost. */
function crossing(): [number, number] {
  const [cx, cy, r1, dx, dy, r2] = [0.7, 0.5, 0.4, -0.3, 0.3, 0.3];
  const d = Math.hypot(dx, dy);
  const along = (d * d + r1 * r1 - r2 * r2) / (2 * d);
  const across = Math.sqrt(r1 * r1 - along * along);
  return [-1, 1]
    .map((side): [number, number] => [
      cx + (along * dx - side * across * dy) / d,
      cy + (along * dy + side * across * dx) / d,
    ])
    .sort((a, b) => a[0] + 0.3 * a[1] - b[0] - 0.3 * b[1])[0]!;
}
