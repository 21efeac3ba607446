import type { Study, Varied } from '../model/study.ts';
import type { SearchOutcome, StartRecord } from '../plan/plan.ts';
import { measure, significant } from '../text/significant.ts';
import { superlative } from './objective-words.ts';

/** Starts that end within this share of the best one have found the same. */
const SAME = 1e-3;

/** How a search went and how far its answer can be trusted, a line each. */
export function describeSearch(study: Pick<Study, 'objectives' | 'plan'>, outcome: SearchOutcome): string[] {
  return outcome.kind === 'nelder_mead'
    ? describeDescents(study, outcome.starts)
    : describeGenetic(study, outcome);
}

function describeDescents(
  { objectives }: Pick<Study, 'objectives'>,
  starts: readonly StartRecord[],
): string[] {
  const ends = (end: StartRecord['end']) => starts.filter((start) => start.end === end).length;
  const spent = ends('spent') > 0 ? `, ${ends('spent')} used up their evaluations` : '';
  const broken = ends('broken off') > 0 ? `, ${ends('broken off')} broke off` : '';
  const infeasible = starts.filter(({ feasible }) => !feasible).length;
  const resting = starts.filter(({ rests }) => rests).length;
  const missed =
    (infeasible > 0 ? `; ${infeasible} found no feasible design` : '') +
    (resting > 0 ? `; ${resting} found none that floats` : '');
  const lines = [
    `Nelder-Mead: of ${starts.length} starts ${ends('settled')} went on until nothing improved${spent}${broken}${missed}.`,
  ];
  for (const [o, objective] of objectives.entries()) {
    const run = starts.filter((one) => one.objective === o && one.caps.every((cap) => cap === Infinity));
    const feasible = run.filter((start) => start.feasible);
    const floating = feasible.filter(({ rests }) => !rests);
    if (feasible.length === 0) {
      lines.push(`${superlative(objective)}: none of ${run.length} starts found a feasible design.`);
      continue;
    }
    const found = (floating.length > 0 ? floating : feasible).map(({ to }) => to.costs[o]!);
    const best = Math.min(...found);
    const same = found.filter((cost) => cost - best <= SAME * Math.abs(best)).length;
    const value = measure(objective.sense === 'maximise' ? -best : best, objective.unit);
    if (floating.length === 0) {
      lines.push(
        `${superlative(objective)}: none of ${run.length} starts found a feasible design that floats; of those that rest the best has ${value}.`,
      );
      continue;
    }
    lines.push(`${superlative(objective)}: ${value}, found by ${same} of ${run.length} starts.`);
  }
  return lines;
}

function describeGenetic(
  { plan, objectives }: Pick<Study, 'objectives' | 'plan'>,
  { end, generations, growth }: SearchOutcome & { kind: 'genetic' },
): string[] {
  if (plan.kind !== 'genetic') return [];
  const what = objectives.length === 1 ? 'the best' : 'the hypervolume of the front';
  const lately = `over the last ${plan.patience} generations`;
  if (end === 'exhausted')
    return [`Genetic search: no new design to be found after ${generations} generations.`];
  if (end === 'settled') {
    const little = significant(100 * plan.tolerance);
    return [
      `Genetic search: settled after ${generations} generations; ${what} grew by less than ${little} % ${lately}.`,
    ];
  }
  const still =
    growth < 1
      ? `; ${what} still grew by ${significant(100 * growth)} % ${lately}: more may find better`
      : '';
  return [`Genetic search: all ${generations} generations done${still}.`];
}

/** Shares of a range within which a design is at its end. */
const AT_THE_END = 0.01;

/** Which varied numbers stand at an end of what the study allows, so that more room may give better. */
export function atBounds(vary: readonly Varied[], values: ArrayLike<number>): string[] {
  return vary.flatMap((varied, v) => {
    if (varied.kind !== 'number' || varied.levels.length < 2) return [];
    const low = varied.levels.reduce((least, level) => Math.min(least, level));
    const high = varied.levels.reduce((most, level) => Math.max(most, level));
    const value = values[v]!;
    const scale = varied.between === 'log' ? Math.log : (x: number) => x;
    const margin = Math.min(scale(value) - scale(low), scale(high) - scale(value));
    const isAtEnd = Number.isFinite(high)
      ? margin <= AT_THE_END * (scale(high) - scale(low))
      : value === low || value === high;
    if (!isAtEnd) return [];
    const end = scale(value) - scale(low) === margin ? 'smallest' : 'largest';
    return [`${varied.name.replaceAll('_', ' ')} (${end})`];
  });
}
