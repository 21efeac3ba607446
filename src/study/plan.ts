import type { Problem } from '../errors.ts';
import { SOBOL_DIMENSIONS } from '../math/sobol.ts';
import { mostDesigns, SOBOL_PER_START } from '../model/search-size.ts';
import type { PlanSettings, Varied } from '../model/study.ts';
import { grouped } from '../text/grouped.ts';
import type { Path, Positions } from './positions.ts';
import type { PlanShape } from './schema.ts';

/** Designs of a plan that need `--allow-huge`. */
const HUGE = 50_000_000;

/** What `plan` holds, with its defaults. */
export function planOf({ sobol, nelder_mead: nelderMead, genetic }: PlanShape = {}): PlanSettings {
  if (sobol) return { kind: 'sobol', points: sobol.points, seed: sobol.seed ?? 1 };
  if (nelderMead) {
    const { starts = 8, seed = 1, levels = 8, evaluations = 2000 } = nelderMead;
    const { tolerance = 1e-4, resolution = 1e-4 } = nelderMead;
    return { kind: 'nelder_mead', starts, seed, levels, evaluations, tolerance, resolution };
  }
  if (genetic) {
    const { population = 50, generations = 200, seed = 1, patience = 40, tolerance = 1e-3 } = genetic;
    return { kind: 'genetic', population, generations, seed, patience, tolerance };
  }
  return { kind: 'grid' };
}

/** Why a plan cannot serve a study whose parts are right in themselves; of the objectives it counts also those that are wrong. */
export function planProblems(
  shape: PlanShape | undefined,
  varied: readonly Varied[],
  objectives: number,
  positions: Positions,
  allowHuge: boolean,
): Problem[] {
  const plan = planOf(shape);
  const problems: Problem[] = [];
  const report = (code: string, path: Path, found: string, wanted: string) => {
    problems.push({ code, found, wanted, ...positions.key(path) });
  };
  const named = Object.keys(shape ?? {});
  if (named.length > 1) {
    report('two-plans', ['plan', named[1]!], `a second plan, beside ${named[0]}`, 'one plan');
    return problems;
  }
  const designs = designsOf(varied);
  if (plan.kind === 'grid') {
    if (!isTooMany(designs, allowHuge)) return problems;
    report('huge-grid', ['vary'], `a grid of ${format(designs)} designs`, fewer(allowHuge));
    return problems;
  }
  const here: Path = ['plan', plan.kind];
  if (varied.length > SOBOL_DIMENSIONS) {
    report(
      'too-many-axes',
      ['vary'],
      `${varied.length} varied inputs`,
      `at most ${SOBOL_DIMENSIONS} for a search`,
    );
  }
  const [wanted, wantedText] = sizeOf(plan);
  if (designs <= wanted) {
    const every = `plan: {grid: {}}, which takes all ${format(designs)}`;
    report('search-of-few', here, `${wantedText}, of ${format(designs)} designs in all`, every);
  }
  if (objectives === 0 && plan.kind !== 'sobol') {
    report('nothing-to-seek', here, 'a search without an objective', 'objectives, or plan: {grid: {}}');
  }
  if (plan.kind === 'nelder_mead') {
    if (varied.length > 0 && !varied.some(isSlope)) {
      const found = 'a descent over choices alone, which have no slope';
      report('nothing-to-descend', here, found, 'a number that varies, or another plan');
    }
    if (objectives === 1 && shape?.nelder_mead?.levels !== undefined) {
      report(
        'levels-of-one',
        [...here, 'levels'],
        'levels with a single objective',
        'a second objective, or no levels',
      );
    }
  }
  const most = mostDesigns(plan, objectives);
  if (isTooMany(most, allowHuge)) {
    report('huge-search', here, `a search of up to ${format(most)} designs`, fewer(allowHuge));
  }
  return problems;
}

type Search = Exclude<PlanSettings, { kind: 'grid' }>;

/** How many designs a search needs at once, and what for. */
function sizeOf(plan: Search): [number, string] {
  if (plan.kind === 'sobol') return [plan.points, `${format(plan.points)} points`];
  if (plan.kind === 'genetic') return [plan.population, `a population of ${format(plan.population)}`];
  const drawn = plan.starts * SOBOL_PER_START;
  return [drawn, `${format(plan.starts)} starts, chosen from ${format(drawn)}`];
}

/** All combinations; infinite where a range leaves any number open. */
function designsOf(varied: readonly Varied[]): number {
  return varied.reduce((product, one) => product * valuesOf(one), 1);
}

function valuesOf(varied: Varied): number {
  if (varied.kind === 'choice' || varied.between === undefined) return varied.levels.length;
  const [a, b] = [varied.levels[0]!, varied.levels.at(-1)!];
  return varied.integer ? Math.abs(b - a) + 1 : Number.POSITIVE_INFINITY;
}

function isSlope(varied: Varied): boolean {
  return varied.kind === 'number' && varied.levels.length > 1;
}

function isTooMany(designs: number, allowHuge: boolean): boolean {
  return designs > (allowHuge ? Number.MAX_SAFE_INTEGER : HUGE);
}

function fewer(allowHuge: boolean): string {
  return `at most ${format(HUGE)}${allowHuge ? '' : ', or --allow-huge'}`;
}

function format(count: number): string {
  return grouped(count);
}
