import { describe, expect, it } from 'vitest';
import type { Candidate } from '../../src/plan/candidate.ts';
import { chooseStarts } from '../../src/plan/choose-starts.ts';
import { createSpace } from '../../src/plan/space.ts';
import { variedChoice, variedRange } from '../support/varied.ts';

const space = createSpace([variedChoice('metal', 3), variedRange('x', 0, 1)]);

function at(metal: number, x: number): Candidate {
  return { id: 0, design: Float64Array.of(metal, x), costs: Float64Array.of(x), violation: 0 };
}

const chosen = (ranked: Candidate[], count: number) =>
  chooseStarts(space, ranked, count).map(({ design }) => [...design]);

describe('starts', () => {
  it('give each combination of choices its turn, the best first', () => {
    const ranked = [at(0, 0.1), at(0, 0.3), at(0, 0.5), at(2, 0.6), at(1, 0.9)];
    expect(chosen(ranked, 4)).toEqual([
      [0, 0.1],
      [2, 0.6],
      [1, 0.9],
      [0, 0.3],
    ]);
  });

  it('do not crowd in one place while there are others', () => {
    const ranked = [at(0, 0.5), at(0, 0.51), at(0, 0.52), at(0, 0.8)];
    expect(chosen(ranked, 2)).toEqual([
      [0, 0.5],
      [0, 0.8],
    ]);
    // with no others left, the nearer ones follow, but none that is as good as the same
    expect(chosen([...ranked, at(0, 0.5)], 9)).toEqual([
      [0, 0.5],
      [0, 0.8],
      [0, 0.52],
      [0, 0.51],
    ]);
  });
});
