import { readFileSync } from 'node:fs';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createGenetic } from '../../src/plan/genetic.ts';
import { createSpace } from '../../src/plan/space.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { DEVELOPED_ON, HELD_OUT, MOST_BEFORE } from '../support/constrained-problems.ts';
import { evaluationsToOptimum } from '../support/evaluations-to-optimum.ts';
import { BNH, DTLZ2, type FrontProblem, TNK, ZDT1, ZDT2, ZDT3 } from '../support/problems.ts';
import { frontOf, runPlan, volumeOf } from '../support/run-plan.ts';
import type { Line } from './compare.ts';
import { spreadOf } from './statistics.ts';

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

/** Fronts that are known, with their hypervolume by integration where it has a closed form. */
const FRONTS: readonly [string, FrontProblem, number | null][] = [
  ['ZDT1', ZDT1, 0.876667],
  ['ZDT2', ZDT2, 0.543333],
  ['ZDT3', ZDT3, 1.331763],
  ['DTLZ2', DTLZ2, 0.807401],
  ['BNH', BNH, null],
  ['TNK', TNK, null],
];

const SEVEN = new URL('../../../studies/seven-choices.yaml', import.meta.url);
/**
 * The best known front of that study, from six searches of 100,000 designs each: where its box ends (beyond its worst height,
 * m, turned to a cost, and coil mass, kg), and its hypervolume in it.
 */
const BEST_KNOWN = { reference: [-0.003557842743442231, 3.2139153729215466], volume: 0.028719034080616684 };

/** What searches find with ten seeds, on problems of the literature. Counts and shares: the machine does not matter. */
export function benchSearches(): Line[] {
  const descents = [...DEVELOPED_ON, ...HELD_OUT].map((problem): Line => {
    const before = MOST_BEFORE[problem.name]!;
    return {
      what: `nelder_mead, ten seeds, to 1e-6 of the optimum: ${problem.name}`,
      unit: 'evaluations',
      measured: spreadOf(SEEDS.map((seed) => evaluationsToOptimum(problem, seed))),
      target: Number.isFinite(before) ? `< ${before}` : '',
    };
  });
  const fronts = FRONTS.map(([name, problem, exact]): Line => {
    const whole = exact ?? volumeOf(problem.front, problem.reference);
    return {
      what: `genetic, ten seeds, 15,000 evaluations, short of the true hypervolume: ${name}`,
      unit: '%',
      measured: spreadOf(SEEDS.map((seed) => 100 * (1 - volumeFound(problem, seed) / whole))),
      target: '< 2 %',
    };
  });
  const demo: Line = {
    what: 'genetic, ten seeds, 10,000 designs of seven inputs, short of the best known hypervolume',
    unit: '%',
    measured: spreadOf(SEEDS.map((seed) => 100 * (1 - shareOfSeven(seed)))),
    target: '< 1 %',
  };
  return [...descents, ...fronts, demo];
}

function shareOfSeven(seed: number): number {
  const plan = `plan: {genetic: {population: 50, generations: 200, seed: ${seed}, patience: 200}}`;
  const reading = readStudy(readFileSync(SEVEN, 'utf8').replace(/^plan:.*$/m, plan));
  if ('problems' in reading) throw new Error(reading.problems[0]!.found);
  const { study } = reading;
  const search = createPlan(study);
  const problem = {
    senses: study.objectives.map(({ sense }) => sense),
    evaluate: createEvaluator(study),
  };
  const batches = {
    get done() {
      return search.done;
    },
    next() {
      const work = search.next();
      if (work && 'from' in work) throw new Error('batches only');
      return work;
    },
    receive: search.receive,
  };
  const found = frontOf(runPlan(batches, problem)).map(({ costs }) => costs);
  return volumeOf(found, BEST_KNOWN.reference) / BEST_KNOWN.volume;
}

function volumeFound(problem: FrontProblem, seed: number): number {
  const settings = { population: 50, generations: 300, seed, patience: 1000, tolerance: 1e-3 };
  const plan = createGenetic(createSpace(problem.vary), problem.senses, { kind: 'genetic', ...settings });
  const found = frontOf(runPlan(plan, problem)).map(({ costs }) => costs);
  return volumeOf(found, problem.reference);
}
