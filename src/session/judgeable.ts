import { UsageError } from '../errors.ts';
import { quantitiesOf } from '../expression/compile.ts';
import type { Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Study } from '../model/study.ts';
import type { Io } from './io.ts';

/**
 * The study without those of its limits that this result cannot be judged by, which are printed: every row would break them,
 * and the front would be empty for no reason. Throws UsageError where an objective is lacking.
 */
export function judgeable(study: Study, missing: readonly number[], place: string, io: Io): Study {
  const { limits, objectives, derive } = study;
  const lackingOf = (program: Program): string | null => {
    const lacking = quantitiesOf(program, derive).find((quantity) => missing.includes(quantity));
    return lacking === undefined ? null : QUANTITIES[lacking]!.name;
  };
  for (const { text, program } of objectives) {
    const lacking = lackingOf(program);
    if (lacking === null) continue;
    throw new UsageError(
      `${place} has no ${lacking}, which '${text}' of its study needs; eddylift run --fresh computes it`,
    );
  }
  const kept = limits.filter(({ text, left, right }) => {
    const lacking = lackingOf([...left, ...right]);
    if (lacking === null) return true;
    io.stderr.write(
      `eddylift: ${place} has no ${lacking} (an earlier version made it): not judged by '${text}'\n`,
    );
    return false;
  });
  return kept.length === limits.length ? study : { ...study, limits: kept };
}
