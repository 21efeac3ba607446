import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import type { Candidate } from '../../src/plan/candidate.ts';
import { createLocalMoves } from '../../src/plan/local-moves.ts';
import { selectSurvivors } from '../../src/plan/select-survivors.ts';
import { createSpace } from '../../src/plan/space.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

const space = createSpace([
  variedChoice('metal', 3),
  variedNumber('wire', [1, 2, 4, 8]),
  variedRange('turns', 1, 1000, { integer: true }),
  variedRange('gap', 0, 1),
]);

/** A front along a line on which turns rise as the gap falls; metal and wire of the second half are others. */
function front(count: number, costs: (t: number) => number[] = (t) => [t, 1 - t]): Candidate[] {
  return Array.from({ length: count }, (_, id) => {
    const t = id / (count - 1);
    const isFirst = t < 0.5;
    const design = Float64Array.of(
      isFirst ? 0 : 2,
      isFirst ? 1 : 8,
      300 + Math.round(400 * t),
      0.8 - 0.6 * t,
    );
    return { id, design, costs: Float64Array.from(costs(t)), violation: 0 };
  });
}

function drawn(members: readonly Candidate[], count: number, seed = 1): Float64Array[] {
  const moves = createLocalMoves(space, selectSurvivors(members, members.length), createRandom(seed))!;
  return Array.from({ length: count }, moves).filter((child) => child !== null);
}

describe('local moves', () => {
  it('keep choices and sizes out of short lists as some member has them, and stay within ranges', () => {
    const children = drawn(front(21), 2000);
    expect(children).toHaveLength(2000);
    for (const [metal, wire, turns, gap] of children) {
      expect([`0 1`, `2 8`]).toContain(`${metal} ${wire}`);
      expect(Number.isInteger(turns) && turns! >= 1 && turns! <= 1000).toBe(true);
      expect(gap! >= 0 && gap! <= 1).toBe(true);
    }
    expect(new Set(children.map(([metal]) => metal)).size).toBe(2);
  });

  it('follow the front with half of all: those keep to its line, which the others leave', () => {
    const off = drawn(front(21), 4000).map(([, , turns, gap]) =>
      Math.abs(gap! - (0.8 - (0.6 * (turns! - 300)) / 400)),
    );
    // turns are whole: half a turn is 0.00075 of gap
    const near = off.filter((by) => by < 0.0016).length / off.length;
    // half, and of the others those whose steps are small: a third of them, by the ratios of steps
    expect(near).toBeGreaterThan(0.5);
    expect(near).toBeLessThan(0.8);
  });

  it('start beside the widest gap most often', () => {
    // the cost jumps between the tenth and the eleventh of 21
    const members = front(21, (t) => (t < 0.5 ? [0.1 * t, 1 - 0.1 * t] : [0.9 + 0.1 * t, 0.1 - 0.1 * t]));
    const small = drawn(members, 4000).map(([, , turns]) => Math.round((turns! - 300) / 20));
    const of = (i: number) => small.filter((at) => at === i).length;
    expect(of(9)).toBeGreaterThan(4 * of(5));
    expect(of(10)).toBeGreaterThan(4 * of(15));
  });

  it('are the same for the same seed', () => {
    expect(drawn(front(9), 50, 3)).toEqual(drawn(front(9), 50, 3));
    expect(drawn(front(9), 50, 3)).not.toEqual(drawn(front(9), 50, 4));
  });

  it('are none where a front is too small, has other than two objectives, or nothing nearly continuous varies', () => {
    const moves = (members: Candidate[], within = space) =>
      createLocalMoves(within, selectSurvivors(members, members.length), createRandom(1));
    expect(moves(front(3))).toBeNull();
    expect(moves(front(9, (t) => [t]))).toBeNull();
    expect(moves(front(9, (t) => [t, 1 - t, t]))).toBeNull();
    expect(moves(front(9).map((one) => ({ ...one, violation: 0.1 })))).toBeNull();
    const choices = createSpace([variedChoice('metal', 3), variedNumber('wire', [1, 2, 4, 8])]);
    expect(moves(front(9), choices)).toBeNull();
    expect(moves(front(9))).not.toBeNull();
  });

  it('leave out members whose costs are infinite', () => {
    const members = front(9);
    members[0]!.costs[0] = Number.NEGATIVE_INFINITY;
    for (const child of drawn(members, 200)) expect([...child].every(Number.isFinite)).toBe(true);
  });
});
