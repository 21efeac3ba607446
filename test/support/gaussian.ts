import type { Random } from '../../src/math/random.ts';

/** A standard normal number (G. E. P. Box, M. E. Muller, Ann. Math. Stat. 29 (1958) 610-611). */
export function gaussian(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.unit())) * Math.cos(2 * Math.PI * random.unit());
}
