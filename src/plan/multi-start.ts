import { RESTING_EXCESS } from '../model/rows.ts';
import { mostDesigns, SOBOL_PER_START } from '../model/search-size.ts';
import type { NelderMeadPlan } from '../model/study.ts';
import { type Candidate, candidates, type Senses } from './candidate.ts';
import { chooseStarts } from './choose-starts.ts';
import type { Descent, Plan, SearchOutcome, StartRecord } from './plan.ts';
import { createSobolPlan } from './sobol.ts';
import type { Space } from './space.ts';
import { isBetter, standingOf } from './standing.ts';

type Stage = 'sobol' | 'each objective' | 'levels' | 'over';

/**
 * Nelder-Mead descents from many starts. First Sobol' points; then each objective alone, from the best of these points; with two or
 * more, then the first objective with caps on the others, one run for every combination of their levels, from the
 * best designs known for it. The levels of an objective divide evenly what lies between its own best and the worst
 * that it has at the best of another. A run is as many descents as there are starts, independent of one another.
 * `largest`: most designs of a batch.
 */
export function createMultiStart(
  space: Space,
  senses: Senses,
  settings: NelderMeadPlan,
  largest?: number,
): Plan {
  const { starts, seed, levels } = settings;
  const points = createSobolPlan(space, { points: starts * SOBOL_PER_START, seed }, largest);
  const known: Candidate[] = [];
  const records: StartRecord[] = [];
  const free = senses.map(() => Number.POSITIVE_INFINITY);
  let stage: Stage = 'sobol';
  let extents: readonly number[] = [];
  const waiting: Descent[] = [];
  const running: Descent[] = [];
  let launched = 0;

  function launch(objective: number, caps: readonly number[]): void {
    const terms = { objective, caps, extents };
    const ranked = known
      .map((candidate) => ({ candidate, standing: standingOf(candidate, terms) }))
      .sort((a, b) => (isBetter(a.standing, b.standing) ? -1 : isBetter(b.standing, a.standing) ? 1 : 0))
      .map(({ candidate }) => candidate);
    for (const from of chooseStarts(space, ranked, starts)) {
      waiting.push({ start: launched++, seed, from, ...terms, settings });
    }
  }

  function advance(): void {
    if (stage === 'sobol') {
      stage = 'each objective';
      extents = senses.map((_, o) => extentOf(known, o));
      for (const objective of senses.keys()) launch(objective, free);
    } else if (stage === 'each objective') {
      stage = 'levels';
      const boxes = capsOf(records, senses.length, levels);
      for (const caps of boxes) launch(0, caps);
    }
    if (waiting.length === 0) stage = 'over';
  }

  return {
    total: null,
    atMost: mostDesigns(settings, senses.length),
    atOnce: Math.max(points.atOnce, starts * Math.max(senses.length, levels ** (senses.length - 1))),
    get outcome(): SearchOutcome | null {
      return stage === 'over' ? { kind: 'nelder_mead', starts: records } : null;
    },
    get done() {
      return stage === 'over';
    },
    next() {
      if (stage === 'sobol') return points.next();
      const descent = waiting.shift() ?? null;
      if (descent) running.push(descent);
      return descent;
    },
    receive(rows, report) {
      const found = candidates(rows, senses);
      known.push(...found);
      if (report) {
        const descent = running.shift()!;
        const { start, objective, caps } = descent;
        const { best, feasible, end } = report;
        const [from, to] = [found[0]!, found[best]!];
        const rests = to.violation === RESTING_EXCESS && to.costs.every((cost, o) => !(cost > caps[o]!));
        const evaluations = found.length;
        records.push({
          start,
          objective,
          caps,
          from,
          to,
          feasible: feasible || rests,
          rests,
          evaluations,
          end,
        });
      }
      const last = stage === 'sobol' ? known.length === points.total : running.length === 0;
      if (last && waiting.length === 0) advance();
    },
    sample: points.sample,
  };
}

/** How far apart costs usually are: from the best to the median, of what is feasible if anything is. */
function extentOf(known: readonly Candidate[], o: number): number {
  const finite = known.filter(({ costs }) => Number.isFinite(costs[o]!));
  const feasible = finite.filter(({ violation }) => violation === 0);
  const costs = (feasible.length > 1 ? feasible : finite).map((candidate) => candidate.costs[o]!);
  costs.sort((a, b) => a - b);
  const [best, median] = [costs[0] ?? 0, costs[costs.length >> 1] ?? 0];
  return median - best || Math.abs(best) || 1;
}

/** Every combination of the levels of all objectives but the first; none where an objective has no feasible design that floats. */
function capsOf(records: readonly StartRecord[], objectives: number, levels: number): number[][] {
  const optima = Array.from({ length: objectives }, (_, o) => {
    const found = records.filter(({ objective, feasible, rests }) => objective === o && feasible && !rests);
    return found.reduce<Candidate | null>(
      (best, { to }) => (best === null || to.costs[o]! < best.costs[o]! ? to : best),
      null,
    );
  });
  if (optima.some((optimum) => optimum === null)) return [];
  let boxes: number[][] = [[Number.POSITIVE_INFINITY]];
  for (let o = 1; o < objectives; o++) {
    const best = optima[o]!.costs[o]!;
    const worst = Math.max(...optima.map((optimum) => optimum!.costs[o]!));
    if (!(worst > best && Number.isFinite(worst - best))) return [];
    const caps = Array.from({ length: levels }, (_, k) => best + ((worst - best) * (k + 1)) / (levels + 1));
    boxes = boxes.flatMap((box) => caps.map((cap) => [...box, cap]));
  }
  return objectives > 1 ? boxes : [];
}
