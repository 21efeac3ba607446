import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Candidate, dominates } from '../../src/plan/candidate.ts';
import { selectSurvivors } from '../../src/plan/select-survivors.ts';

function candidate(costs: number[], violation = 0, id = 0): Candidate {
  return { id, design: new Float64Array(0), costs: Float64Array.from(costs), violation };
}

const any = fc
  .tuple(
    fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 2, maxLength: 2 }),
    fc.constantFrom(0, 0, 0.1, 0.5, Number.POSITIVE_INFINITY),
  )
  .map(([costs, violation]) => candidate(costs, violation));

describe('feasibility rules', () => {
  it('prefer what breaks limits less, and among feasible designs what dominates', () => {
    expect(dominates(candidate([9, 9]), candidate([0, 0], 0.1))).toBe(true);
    expect(dominates(candidate([9, 9], 0.1), candidate([0, 0], 0.2))).toBe(true);
    expect(dominates(candidate([0, 0], 0.1), candidate([9, 9], 0.1))).toBe(false);
    expect(dominates(candidate([1, 2]), candidate([1, 3]))).toBe(true);
    expect(dominates(candidate([1, 2]), candidate([1, 2]))).toBe(false);
    expect(dominates(candidate([1, 3]), candidate([2, 2]))).toBe(false);
  });
});

describe('survivors', () => {
  it('are as many as there is room for, none twice, and none is left behind for one of its kind that is worse', () => {
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 40 }), fc.nat(45), (all, count) => {
        const { members, ranks } = selectSurvivors(all, count);
        expect(members).toHaveLength(Math.min(count, all.length));
        expect(ranks).toHaveLength(members.length);
        expect(new Set(members).size).toBe(members.length);
        const feasible = (list: readonly Candidate[]) => list.filter(({ violation }) => violation === 0);
        const dead = feasible(all).filter((one) => !members.includes(one));
        for (const one of dead) {
          for (const member of feasible(members)) expect(dominates(one, member)).toBe(false);
        }
      }),
    );
  });

  it('keep three tenths of the room for designs beyond the limits, the best of them, and give them all while they must', () => {
    const feasible = Array.from({ length: 20 }, (_, i) => candidate([i, 20 - i], 0, i));
    const beyond = Array.from({ length: 20 }, (_, i) => candidate([i, -i], 0.01 * (i + 1), 100 + i));
    const hopeless = candidate([-99, -99], Number.POSITIVE_INFINITY, 999);
    const kinds = (all: Candidate[]) => {
      const { members } = selectSurvivors(all, 10);
      return [
        members.filter(({ violation }) => violation === 0).length,
        members.map(({ id }) => id),
      ] as const;
    };
    const [count, ids] = kinds([...feasible, ...beyond, hopeless]);
    expect(count).toBe(7);
    // twice as many as there is room for are looked at
    for (const id of ids.filter((id) => id >= 100)) expect(id).toBeLessThan(106);
    expect(ids).not.toContain(999);
    expect(kinds([...feasible.slice(0, 2), ...beyond, hopeless])[0]).toBe(2);
    expect(kinds([...feasible.slice(0, 2), hopeless])[1]).toEqual([0, 1, 999]);
  });

  it('of rank 0 are those that nothing feasible dominates, when all are feasible', () => {
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 40 }), (drawn) => {
        const all = drawn.map((one) => ({ ...one, violation: 0 }));
        const { members, ranks } = selectSurvivors(all, all.length);
        const best = members.filter((_, i) => ranks[i] === 0);
        expect(new Set(best)).toEqual(new Set(all.filter((one) => !all.some((o) => dominates(o, one)))));
      }),
    );
  });

  it('keep the ends of a crowded front and thin it where it is densest', () => {
    // nineteen points within a tenth of the front, the ends and one in the gap
    const dense = Array.from({ length: 19 }, (_, i) => candidate([0.4 + i / 190, 0.6 - i / 190]));
    const ends = [candidate([0, 1]), candidate([1, 0]), candidate([0.75, 0.25])];
    const { members } = selectSurvivors([...dense, ...ends], 6);
    for (const end of ends) expect(members).toContain(end);
  });

  it('do not hang on the units of the objectives', () => {
    const front = Array.from({ length: 30 }, (_, i) => [((i * 7) % 30) / 30, 1 - (((i * 7) % 30) / 30) ** 2]);
    const plain = selectSurvivors(
      front.map((costs, id) => candidate(costs, 0, id)),
      12,
    );
    // powers of two scale without rounding
    const scaled = selectSurvivors(
      front.map(([a, b], id) => candidate([a! * 1024, b! / 4096], 0, id)),
      12,
    );
    expect(scaled.members.map(({ id }) => id)).toEqual(plain.members.map(({ id }) => id));
  });
});
