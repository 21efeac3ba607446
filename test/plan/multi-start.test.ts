import { describe, expect, it } from 'vitest';
import type { NelderMeadPlan } from '../../src/model/study.ts';
import type { Candidate } from '../../src/plan/candidate.ts';
import { createMultiStart } from '../../src/plan/multi-start.ts';
import type { StartRecord } from '../../src/plan/plan.ts';
import { createSpace } from '../../src/plan/space.ts';
import { whole } from '../support/nightly.ts';
import { BNH, type Problem, problemOf } from '../support/problems.ts';
import { distance, frontOf, median, runSearch, volumeOf } from '../support/run-plan.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

/** All ten where system tests run whole. */
const SEEDS = whole ? [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] : [1, 2];

function descend(problem: Problem, changes: Partial<NelderMeadPlan> = {}) {
  const settings = { starts: 8, seed: 1, levels: 8, evaluations: 3000, tolerance: 1e-6, resolution: 1e-6 };
  const plan: NelderMeadPlan = { kind: 'nelder_mead', ...settings, ...changes };
  const space = createSpace(problem.vary, plan.resolution);
  const search = createMultiStart(space, problem.senses, plan);
  const all = runSearch(search, problem, space);
  const { starts } = search.outcome as { starts: readonly StartRecord[] };
  return { all, starts };
}

/** The best feasible of a single objective over the starts. */
function bestOf(starts: readonly StartRecord[]): Candidate {
  const feasible = starts.filter((start) => start.feasible).map(({ to }) => to);
  return feasible.sort((a, b) => a.costs[0]! - b.costs[0]!)[0]!;
}

const square = (low: number, high: number) => [variedRange('x', low, high), variedRange('y', low, high)];

/** J. J. Moré, B. S. Garbow, K. E. Hillstrom 1981: 0 at (1, 1) (from memory). */
const ROSENBROCK = problemOf(square(-5, 5), ([x, y]) => [100 * (y! - x! ** 2) ** 2 + (1 - x!) ** 2]);

/** 0 at four places (Jamil and Yang 2013). */
const HIMMELBLAU = problemOf(square(-5, 5), ([x, y]) => [(x! ** 2 + y! - 11) ** 2 + (x! + y! ** 2 - 7) ** 2]);
const HIMMELBLAU_MINIMA = [
  [3, 2],
  [-2.805118, 3.131312],
  [-3.77931, -3.283186],
  [3.584428, -1.848126],
] as const;

/** Problem G06 of the constrained test set of Z. Michalewicz: -6961.81388 at (14.095, 0.84296) (from memory). */
const G06 = problemOf(
  [variedRange('x', 13, 100), variedRange('y', 0, 100)],
  ([x, y]) => [(x! - 10) ** 3 + (y! - 20) ** 3],
  ([x, y]) => [
    [(x! - 5) ** 2 + (y! - 5) ** 2, '>=', 100],
    [(x! - 6) ** 2 + (y! - 5) ** 2, '<=', 82.81],
  ],
);

const SIXTEENTHS = Array.from({ length: 99 }, (_, i) => (i + 1) * 0.0625);

/**
 * The pressure vessel of textbooks (B. K. Kannan, S. N. Kramer 1994): shell and head from plate in sixteenths of an
 * inch, radius and length free; 6059.714 at 0.8125, 0.4375, 42.09845, 176.6366 (from memory).
 */
const VESSEL = problemOf(
  [
    variedNumber('shell', SIXTEENTHS),
    variedNumber('head', SIXTEENTHS),
    variedRange('radius', 10, 200),
    variedRange('length', 10, 200),
  ],
  ([s, h, r, l]) => [
    0.6224 * s! * r! * l! + 1.7781 * h! * r! ** 2 + 3.1661 * s! ** 2 * l! + 19.84 * s! ** 2 * r!,
  ],
  ([s, h, r, l]) => [
    [s!, '>=', 0.0193 * r!],
    [h!, '>=', 0.00954 * r!],
    [Math.PI * r! ** 2 * l! + (4 / 3) * Math.PI * r! ** 3, '>=', 1296000],
  ],
);

describe('nelder_mead', () => {
  it('reaches the minimum of Rosenbrock from every start', () => {
    for (const seed of SEEDS) {
      for (const { to, end } of descend(ROSENBROCK, { seed, tolerance: 1e-8, resolution: 1e-8 }).starts) {
        expect(end).toBe('settled');
        // half of the scatter costs more than 1e4, of which the tolerance is 1e-4
        expect(to.costs[0]).toBeLessThan(1e-4);
        for (const x of to.design) expect(x).toBeCloseTo(1, 1);
      }
    }
  });

  it('ends each start of Himmelblau in one of its four minima, and finds several of them', () => {
    for (const seed of SEEDS) {
      const { starts } = descend(HIMMELBLAU, { seed });
      const found = starts.map(({ to }) =>
        HIMMELBLAU_MINIMA.findIndex(([x, y]) => Math.hypot(to.design[0]! - x, to.design[1]! - y) < 1e-3),
      );
      expect(found).not.toContain(-1);
      expect(new Set(found).size).toBeGreaterThanOrEqual(2);
    }
  });

  it('stops at the limits of a textbook minimum that lies in a corner of them', () => {
    const best = SEEDS.map((seed) => bestOf(descend(G06, { seed }).starts));
    for (const { violation } of best) expect(violation).toBe(0);
    const costs = best.map(({ costs }) => costs[0]!);
    // eight digits of x = 14.095 are 1e-6 apart, and along the limits the cost changes by several 1000 a unit
    expect(Math.min(...costs)).toBeGreaterThan(-6961.81388);
    expect(Math.max(...costs)).toBeLessThan(-6961.81388 + 0.05);
  });

  it('finds the sizes of a mixed textbook design', () => {
    const best = SEEDS.map((seed) => bestOf(descend(VESSEL, { seed, starts: 16 }).starts));
    const costs = best.map(({ costs }) => costs[0]!);
    expect(Math.min(...costs)).toBeGreaterThan(6059.7);
    // the best of one seed; the median is within the step that the next sixteenth of an inch makes
    expect(Math.min(...costs)).toBeLessThan(6059.9);
    expect(median(costs)).toBeLessThan(6059.714 * 1.05);
  });

  it('tries every choice and keeps whole numbers whole', () => {
    const mixed = problemOf(
      [
        variedChoice('metal', 3),
        variedRange('turns', 1, 60, { integer: true }),
        variedRange('gap', 0.01, 10, { spacing: 'log' }),
      ],
      ([metal, turns, gap]) => [(metal! - 1) ** 2 + (turns! / 20 - 1) ** 2 + Math.log10(gap!) ** 2],
    );
    const { all, starts } = descend(mixed, { starts: 3 });
    for (const { design } of all)
      expect(Number.isInteger(design[0]) && Number.isInteger(design[1])).toBe(true);
    for (const { to } of starts) {
      expect([...to.design.slice(0, 2)]).toEqual([1, 20]);
      expect(to.design[2]).toBeCloseTo(1, 3);
    }
  });

  it('says that a start found nothing feasible where nothing is', () => {
    const hopeless = problemOf(
      square(0, 1),
      ([x, y]) => [x! + y!],
      ([x]) => [[x!, '>=', 2]],
    );
    const { starts } = descend(hopeless);
    expect(starts.map(({ feasible }) => feasible)).toEqual(starts.map(() => false));
    // as near to the limit as the bounds allow
    for (const { to } of starts) expect(to.design[0]).toBe(1);
  });

  it('takes no more evaluations than a start may have, and says that they were spent', () => {
    const { starts, all } = descend(ROSENBROCK, { evaluations: 25 });
    expect(starts.map(({ end, evaluations }) => [end, evaluations])).toEqual(starts.map(() => ['spent', 25]));
    expect(all).toHaveLength(8 * 16 + 8 * 25);
  });

  it('makes every evaluation a row, the scatter first, then start by start from where each began', () => {
    const { starts, all } = descend(HIMMELBLAU);
    expect(starts.map(({ start }) => start)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    let row = 8 * 16;
    for (const { from, to, evaluations } of starts) {
      expect(from.id).toBe(row);
      expect(to.id >= row && to.id < row + evaluations).toBe(true);
      expect(to.costs[0]).toBe(Math.min(...all.slice(row, row + evaluations).map(({ costs }) => costs[0]!)));
      expect(all.slice(0, 8 * 16).map(({ design }) => design.join())).toContain(from.design.join());
      row += evaluations;
    }
    expect(row).toBe(all.length);
  });

  it('evaluates no design twice in one start', () => {
    const { starts, all } = descend(VESSEL);
    for (const { from, evaluations } of starts) {
      const designs = all.slice(from.id, from.id + evaluations).map(({ design }) => design.join());
      expect(new Set(designs).size).toBe(designs.length);
    }
  });

  it('is the same for the same seed and another for another', () => {
    const designs = (seed: number) => descend(G06, { seed }).all.map(({ design }) => design.join());
    expect(designs(5)).toEqual(designs(5));
    expect(designs(5)).not.toEqual(designs(6));
  });

  it('traces a front, one run per level of the second objective, each held to its level', () => {
    const shares: number[] = [];
    for (const seed of SEEDS) {
      const settings = { seed, starts: 3, levels: 12, tolerance: 1e-4, resolution: 1e-4 };
      const { all, starts } = descend(BNH, settings);
      expect(starts).toHaveLength(3 * (2 + 12));
      const held = starts.slice(6);
      expect(new Set(held.map(({ caps }) => caps[1])).size).toBe(12);
      for (const { to, caps, feasible } of held) {
        expect(feasible).toBe(true);
        expect(to.costs[1]).toBeLessThanOrEqual(caps[1]!);
      }
      const front = frontOf(all).map(({ costs }) => costs);
      shares.push(volumeOf(front, BNH.reference) / volumeOf(BNH.front, BNH.reference));
      // levels a thirteenth apart: on average a fourth of that from the nearest
      expect(distance(front, BNH.front)).toBeLessThan(0.02);
    }
    expect(median(shares)).toBeGreaterThan(0.99);
  });
});
