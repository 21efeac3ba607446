import { compileLimit, compileObjective, inputsOf, quantitiesOf } from '../expression/compile.ts';
import { inItsCurrency } from '../expression/currency.ts';
import type { Outcome } from '../expression/outcome.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Limit, Objective, Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Study } from '../model/study.ts';
import { valuesOf } from '../study/complete.ts';
import type { Io } from './io.ts';
import { reportProblems } from './report-problems.ts';

/** An objective as given on the command line. */
export interface AskedObjective {
  readonly sense: Objective['sense'];
  readonly text: string;
}

/** Limits and objectives other than the study's own. */
export interface AskedCriteria {
  /** Beside the study's own. */
  readonly limits: readonly string[];
  /** Whether the study's own limits hold, too. */
  readonly ownLimits: boolean;
  /** Instead of the study's own, unless there are none. */
  readonly objectives: readonly AskedObjective[];
}

/**
 * The study with the given limits and objectives in place; null when that has problems, which then stand on stderr.
 * @param missing quantities that its result does not have
 */
export function studyToJudge(
  study: Study,
  options: AskedCriteria,
  missing: readonly number[],
  io: Io,
): Study | null {
  const { derive } = study;
  const values = valuesOf(study.rig, study.vary);
  let sound = true;
  const refuse = (
    option: string,
    text: string,
    found: string,
    wanted: string,
    at: number,
    length: number,
  ) => {
    const problem = { code: 'option', found, wanted, offset: at, length };
    reportProblems(io, option, text, [problem]);
    sound = false;
  };
  const take = <T>(
    option: string,
    text: string,
    outcome: Outcome<T>,
    programs: (value: T) => readonly Program[],
  ): T[] => {
    if (!outcome.ok) {
      const { found, wanted, at, length } = outcome.flaw;
      refuse(option, text, found, wanted, at ?? 0, length ?? text.length);
      return [];
    }
    const absent = programs(outcome.value)
      .flatMap(inputsOf)
      .find((slot) => values(slot).every(Number.isNaN));
    if (absent !== undefined) {
      const { name } = INPUTS[absent]!;
      const found = `\`${name}\`, which the study does not give`;
      refuse(
        option,
        text,
        found,
        'quantities and inputs that it has',
        Math.max(0, text.indexOf(name)),
        name.length,
      );
    }
    const used = programs(outcome.value).flatMap((program) => quantitiesOf(program, derive));
    const lacking = used.find((quantity) => missing.includes(quantity));
    const unrequested = used.find(
      (quantity) => QUANTITIES[quantity]!.effort > 0 && !study.requested?.includes(quantity),
    );
    if (unrequested !== undefined) {
      const { name } = QUANTITIES[unrequested]!;
      const found = `\`${name}\`, which is computed on request and was not requested in this study`;
      const wanted =
        'quantities that the result has; a study that names it under keep or derive, run anew, has it';
      refuse(option, text, found, wanted, Math.max(0, text.indexOf(name)), name.length);
    } else if (lacking !== undefined) {
      const { name } = QUANTITIES[lacking]!;
      const found = `\`${name}\`, which this result does not have: the version that made it did not know it`;
      const wanted = 'a quantity that it has; eddylift run --fresh computes them all';
      refuse(option, text, found, wanted, Math.max(0, text.indexOf(name)), name.length);
    }
    return [outcome.value];
  };
  const currency = study.stock?.currency ?? null;
  const limits: Limit[] = options.limits.flatMap((text) =>
    take(
      '--limit',
      text,
      inItsCurrency(text, currency, (plain) => compileLimit(plain, derive)),
      ({ left, right }) => [left, right],
    ),
  );
  const objectives: Objective[] = options.objectives.flatMap(({ sense, text }) =>
    take(
      `--${sense}`,
      text,
      inItsCurrency(text, currency, (plain) => compileObjective(plain, sense, derive)),
      ({ program }) => [program],
    ),
  );
  if (!sound) return null;
  return {
    ...study,
    limits: [
      ...(options.ownLimits ? study.limits : study.limits.filter(({ implied }) => implied)),
      ...limits,
    ],
    objectives: objectives.length > 0 ? objectives : study.objectives,
  };
}
