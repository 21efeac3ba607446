import type { Varied } from '../model/study.ts';

/**
 * How many coils over plates a grid goes through before it comes back to the first, at most: every combination of what they
 * depend on that changes faster than something else. 0 where nothing is known: values that are not listed. Only how much is
 * remembered hangs on it, no row.
 */
export function returningPairs(vary: readonly Varied[]): number {
  const isListed = vary.every((varied) => varied.kind === 'choice' || varied.between === undefined);
  const slowest = vary.findIndex(({ path, levels }) => APART.test(path) && levels.length > 1);
  if (!isListed || slowest < 0) return 0;
  return vary
    .slice(slowest)
    .reduce((pairs, { path, levels }) => pairs * (APART.test(path) ? 1 : levels.length), 1);
}

/** Inputs that neither a coil's field nor a plate's answer to it depends on. */
const APART =
  /^(drive|duty|stock|guides|standoff\.|supply\.(?!frequency)|surroundings\.(?!temperature)|plate\.(extra_mass|load)|coil\.(metal|extra_mass|thermal_class))/;
