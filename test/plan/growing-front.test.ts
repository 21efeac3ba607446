import { describe, expect, it } from 'vitest';
import type { Candidate } from '../../src/plan/candidate.ts';
import { createGrowingFront } from '../../src/plan/growing-front.ts';

function candidate(costs: number[], violation = 0): Candidate {
  return { id: 0, design: new Float64Array(0), costs: Float64Array.from(costs), violation };
}

/** Growth after generations of candidates, over so many of them. */
function growth(generations: readonly Candidate[][], marks: number): number {
  const front = createGrowingFront();
  for (const generation of generations) {
    for (const one of generation) front.add(one);
    front.mark();
  }
  return front.growth(marks);
}

const ends = [candidate([0, 1]), candidate([1, 0])];

describe('a growing front', () => {
  it('says who joins it: those that are feasible, and neither dominated by a member nor equal to one', () => {
    const front = createGrowingFront();
    const joins = [
      [0, 1],
      [1, 0],
      [1, 1],
      [0, 1],
      [0.5, 0.5],
      [0.6, 0.6],
      [0.5, 0.4],
    ].map((costs) => front.add(candidate(costs)));
    expect(joins).toEqual([true, true, false, false, true, false, true]);
    expect(front.add(candidate([0, 0], 0.5))).toBe(false);
  });
});

describe('growth of a front', () => {
  it('is the share of the hypervolume that came since, in the box of the front and a tenth more', () => {
    // 0.1 x 1.1 twice less the corner both have, then 0.5 x 0.5 more
    const [before, after] = [0.11 + 0.11 - 0.01, 0.11 + 0.11 - 0.01 + 0.25];
    expect(growth([ends, [candidate([0.5, 0.5])]], 1)).toBeCloseTo(1 - before / after, 12);
  });

  it('is nothing when what came is dominated, equal or not feasible', () => {
    expect(growth([ends, [candidate([1, 1]), candidate([0, 1]), candidate([0.1, 0.1], 0.5)]], 1)).toBe(0);
  });

  it('cannot be told while there is no front, too little past or too many objectives', () => {
    expect(growth([[], ends], 1)).toBe(1);
    expect(growth([ends], 1)).toBe(1);
    const four = [candidate([1, 2, 3, 4])];
    expect(growth([four, four], 1)).toBe(1);
  });

  it('looks back exactly as far as it is asked to', () => {
    const generations = [ends, [candidate([0.5, 0.5])], [], []];
    expect(growth(generations, 2)).toBe(0);
    expect(growth(generations, 3)).toBeGreaterThan(0);
  });

  it('of a single objective is nothing once the best is no longer beaten', () => {
    expect(growth([[candidate([3])], [candidate([2])]], 1)).toBeGreaterThan(0);
    expect(growth([[candidate([2])], [candidate([2.5])]], 1)).toBe(0);
  });
});
