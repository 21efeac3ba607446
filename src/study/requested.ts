import { quantitiesOf } from '../expression/compile.ts';
import type { Derived, Limit, Objective } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';

/** What of a study may name a quantity. */
export interface Naming {
  readonly derive: readonly Derived[];
  readonly limits: readonly Limit[];
  readonly objectives: readonly Objective[];
  readonly keep: readonly string[] | null;
}

/** Quantities on request that a study names, in an expression, as a statistic or in `keep`: ascending indices. */
export function requestedBy({ derive, limits, objectives, keep }: Naming): number[] {
  const programs = [
    ...derive.map(({ program }) => program),
    ...limits.flatMap(({ left, right }) => [left, right]),
    ...objectives.map(({ program }) => program),
  ];
  const named = new Set(programs.flatMap((program) => quantitiesOf(program, derive)));
  for (const { statistic } of derive) if (statistic?.kind === 'quantile') named.add(statistic.quantity);
  return QUANTITIES.filter(
    ({ index, name, effort }) => effort > 0 && (named.has(index) || keep?.includes(name)),
  ).map(({ index }) => index);
}
