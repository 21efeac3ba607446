import { describe, expect, it } from 'vitest';
import type { GeneticPlan } from '../../src/model/study.ts';
import { createGenetic } from '../../src/plan/genetic.ts';
import { createSpace, designKey } from '../../src/plan/space.ts';
import { whole } from '../support/nightly.ts';
import {
  BNH,
  DTLZ2,
  FONSECA,
  type FrontProblem,
  OSY,
  type Problem,
  problemOf,
  TNK,
  ZDT1,
  ZDT2,
  ZDT3,
  ZDT4,
  ZDT6,
} from '../support/problems.ts';
import { distance, frontOf, runPlan, volumeOf } from '../support/run-plan.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

/** All ten where system tests run whole; one shows a search that no longer works at all. */
const SEEDS = whole ? [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] : [1];

function evolve(problem: Problem, changes: Partial<GeneticPlan> = {}) {
  const settings = { population: 40, generations: 20, seed: 1, patience: 1000, tolerance: 1e-3 };
  return createGenetic(createSpace(problem.vary), problem.senses, {
    kind: 'genetic',
    ...settings,
    ...changes,
  });
}

/** A little of everything: the least of a bowl that each metal has elsewhere, against a price. */
const MIXED = problemOf(
  [
    variedChoice('metal', 3),
    variedNumber('wire', [1, 2, 4, 8]),
    variedRange('turns', 1, 60, { integer: true }),
    variedRange('gap', 0.01, 10, { spacing: 'log' }),
  ],
  ([metal, wire, turns, gap]) => [
    (metal! - 1) ** 2 + Math.log2(wire! / 4) ** 2 + (turns! / 20 - 1) ** 2 + Math.log10(gap!) ** 2,
    turns! + wire!,
  ],
  ([, wire, turns]) => [[turns! * wire!, '>=', 40]],
);

describe('genetic', () => {
  it('hands out the same designs however many batches are in flight and whenever rows come back', () => {
    const designs = (ahead: number) => runPlan(evolve(MIXED), MIXED, ahead).map(({ design }) => [...design]);
    expect(designs(8)).toEqual(designs(1));
  });

  it('is the same for the same seed and another for another', () => {
    const designs = (seed: number) =>
      runPlan(evolve(MIXED, { seed }), MIXED).map(({ design }) => [...design]);
    expect(designs(3)).toEqual(designs(3));
    expect(designs(3)).not.toEqual(designs(4));
  });

  it('never evaluates a design twice and never leaves what varies', () => {
    const all = runPlan(evolve(MIXED, { generations: 40 }), MIXED);
    expect(all).toHaveLength(1600);
    expect(new Set(all.map(({ design }) => designKey(design))).size).toBe(all.length);
    for (const { design } of all) {
      const [metal, wire, turns, gap] = design;
      expect([0, 1, 2]).toContain(metal);
      expect([1, 2, 4, 8]).toContain(wire);
      expect(Number.isInteger(turns) && turns! >= 1 && turns! <= 60).toBe(true);
      expect(gap! >= 0.01 && gap! <= 10).toBe(true);
    }
  });

  it('finds the best of a mixed space', () => {
    const all = runPlan(evolve(MIXED, { generations: 40 }), MIXED);
    const best = frontOf(all).sort((a, b) => a.costs[0]! - b.costs[0]!)[0]!;
    expect([...best.design.slice(0, 3)]).toEqual([1, 4, 20]);
    // a hundredth of the bowl's cost a decade of gap away from its middle
    expect(best.costs[0]).toBeLessThan(0.01);
  });

  it('stops when the front has not grown for as long as its patience lasts, and says so', () => {
    const plan = evolve(BNH, { generations: 500, patience: 5, tolerance: 0.01 });
    const all = runPlan(plan, BNH);
    expect(all.length).toBeLessThan(500 * 40);
    expect(plan.outcome).toMatchObject({ kind: 'genetic', end: 'settled' });
    const { growth } = plan.outcome as { growth: number };
    expect(growth).toBeLessThan(0.01);
  });

  it('goes on to the last generation while nothing is feasible', () => {
    const hopeless = problemOf(
      [variedRange('x', 0, 1)],
      ([x]) => [x!],
      () => [[1, '<=', 0]],
    );
    const plan = evolve(hopeless, { generations: 12, patience: 2 });
    runPlan(plan, hopeless);
    expect(plan.outcome).toMatchObject({ end: 'generations', generations: 12, growth: 1 });
  });

  it('ends when every design has been evaluated', () => {
    const small = problemOf([variedNumber('x', [1, 2, 3, 4, 5, 6, 7, 8])], ([x]) => [(x! - 3) ** 2]);
    const plan = evolve(small, { population: 5 });
    const all = runPlan(plan, small);
    expect(all).toHaveLength(8);
    expect(plan.outcome).toMatchObject({ end: 'exhausted' });
  });

  it('takes a single objective, and knows when it stops improving', () => {
    const bowl = problemOf([variedRange('x', -5, 5), variedRange('y', -5, 5)], ([x, y]) => [
      (x! - 1) ** 2 + (y! + 2) ** 2,
    ]);
    const plan = evolve(bowl, { generations: 500, patience: 10 });
    const best = Math.min(...runPlan(plan, bowl).map(({ costs }) => costs[0]!));
    expect(plan.outcome).toMatchObject({ end: 'settled' });
    expect(best).toBeLessThan(1e-2);
  });
});

/**
 * After 15,000 evaluations: the hypervolume as a share of that of the true front, least of the seeds, and the mean
 * distance from the true front to what was found, as a share of its extent, most of the seeds. Measured with ten:
 * ZDT1 0.9983, ZDT2 0.9965, ZDT3 0.9994, DTLZ2 0.9806, BNH 1.0001, TNK 0.9951.
 */
const CHECKS: readonly [string, FrontProblem, number | null, number, number][] = [
  // name, problem, exact hypervolume (by integration; null: of the dense front), bounds
  ['ZDT1', ZDT1, 0.876667, 0.98, 0.025],
  ['ZDT2', ZDT2, 0.543333, 0.98, 0.035],
  ['ZDT3', ZDT3, 1.331763, 0.98, 0.013],
  ['DTLZ2', DTLZ2, 0.807401, 0.98, 0.045],
  ['BNH', BNH, null, 0.98, 0.003],
  ['TNK', TNK, null, 0.98, 0.012],
  // looked at once, after the search was as it is: shares 1.000, 0.998, 0.978; OSY's distance 0.036 (with ten seeds)
  ['ZDT6', ZDT6, null, 0.98, 0.035],
  ['the problem of Fonseca and Fleming', FONSECA, null, 0.98, 0.035],
  ['OSY', OSY, null, 0.97, 0.055],
];

describe('genetic on problems whose fronts are known', () => {
  it.each(CHECKS)('comes close to the front of %s with each seed', (_, problem, exact, share, near) => {
    const all = exact ?? volumeOf(problem.front, problem.reference);
    const found = SEEDS.map((seed) => {
      const rows = runPlan(evolve(problem, { population: 50, generations: 300, seed }), problem, 3);
      expect(rows).toHaveLength(15_000);
      return frontOf(rows).map(({ costs }) => costs);
    });
    const shares = found.map((front) => volumeOf(front, problem.reference) / all);
    expect(Math.min(...shares)).toBeGreaterThan(share);
    expect(Math.max(...found.map((front) => distance(front, problem.front)))).toBeLessThan(near);
  });
});

describe('moves along the front', () => {
  // with moves from a tenth of the generations on, whatever the growth, these two seeds end in local fronts, at 0.57 and 0.58
  it('leave a search the way out of local fronts: they wait until the front hardly grows', () => {
    const shares = [2, 4].map((seed) => {
      const rows = runPlan(evolve(ZDT4, { population: 50, generations: 300, seed }), ZDT4, 3);
      const found = frontOf(rows).map(({ costs }) => costs);
      return volumeOf(found, ZDT4.reference) / volumeOf(ZDT4.front, ZDT4.reference);
    });
    expect(Math.min(...shares)).toBeGreaterThan(0.95);
  });
});
