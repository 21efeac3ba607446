import { join } from 'node:path';
import { UsageError } from '../errors.ts';
import { compileLimit, compileObjective, inputsOf, quantitiesOf } from '../expression/compile.ts';
import { inItsCurrency } from '../expression/currency.ts';
import type { Outcome } from '../expression/outcome.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Limit, Objective, Program } from '../model/program.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Study } from '../model/study.ts';
import { chooseThreads } from '../session/choose-threads.ts';
import { findResult } from '../session/find-result.ts';
import { EXIT, type Io } from '../session/io.ts';
import { judgeable } from '../session/judgeable.ts';
import { printDocument } from '../session/print-document.ts';
import { refront } from '../session/refront.ts';
import { reportProblems } from '../session/report-problems.ts';
import { wholeParts } from '../session/whole-parts.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import { missingQuantities } from '../store/parts.ts';
import { stampOf } from '../store/result-folder.ts';
import { otherFrontName, writeOtherFront } from '../store/write-other-front.ts';
import { valuesOf } from '../study/complete.ts';
import { inCurrency } from '../text/currency.ts';
import { widthOf, wrap } from '../text/listing.ts';
import { formatSeconds } from '../words/describe-counts.ts';
import { describeFindings } from '../words/describe-findings.ts';
import { describeOutcome } from '../words/describe-outcome.ts';
import { count } from '../words/describe-plan.ts';

/** An objective as given on the command line. */
export interface AskedObjective {
  readonly sense: Objective['sense'];
  readonly text: string;
}

export interface FrontOptions {
  /** Beside the study's own. */
  readonly limits: readonly string[];
  /** Whether the study's own limits hold, too. */
  readonly ownLimits: boolean;
  /** Instead of the study's own, unless there are none. */
  readonly objectives: readonly AskedObjective[];
  /** Null where the machine decides. */
  readonly threads: number | null;
  readonly json: boolean;
}

/** `eddylift front`: the front of a finished result under other limits and objectives, without evaluating anything. */
export async function front(place: string, options: FrontOptions, io: Io): Promise<number> {
  const began = io.now();
  const result = await findResult(place, io);
  if (!result) return EXIT.usage;
  const { study, folder, record } = result;
  if (!record.finished || record.origin === null) {
    throw new UsageError(`${place} is not finished: eddylift run continues it`);
  }
  const stamp = stampOf(record.hash, record.origin, record.format);
  const parts = await wholeParts(result);
  const missing = await missingQuantities(folder, parts, createPartFormat(study, stamp));
  const whole = studyToJudge(study, options, missing, io);
  if (!whole) return EXIT.usage;
  if (whole.objectives.length === 0) {
    throw new UsageError(`the study of ${place} has no objectives: name one with --maximise or --minimise`);
  }
  const judged = judgeable(whole, missing, place, io);

  const found = await refront(
    {
      folder,
      stamp,
      parts,
      study,
      judged,
      threads: chooseThreads(options.threads, io),
    },
    io.signal,
  );
  if (!found) return EXIT.interrupted;
  const file = otherFrontName(judged);
  const shown = join(place, file);
  const seconds = (io.now() - began) / 1000;

  const { designs, feasible } = found;
  io.stdout.write(
    `${study.title}\n${conditions(judged)}\n\n${count(designs, 'design')} judged anew in ${formatSeconds(seconds)}: ${feasible.toLocaleString('en')} feasible, ${found.front.count.toLocaleString('en')} on the Pareto front.\n`,
  );
  if (found.front.count > 0) {
    const width = widthOf(io.stdout);
    const standing = describeOutcome(judged, null, found.front, null).map((line) =>
      wrap(line, width).join('\n  '),
    );
    const words = [describeFindings(judged, found.front, width, file), standing.join('\n')];
    io.stdout.write(inCurrency(`\n${words.filter((each) => each !== '').join('\n\n')}\n`, study));
  }
  // last, so that whoever may only read a result sees its front all the same
  await writeOtherFront(folder, judged, found.front, found.startRows);
  io.stdout.write(`\nFront: ${shown}\n`);
  if (options.json) {
    printDocument(io, 'front', {
      status: 'done',
      designs,
      feasible,
      front: found.front.count,
      seconds,
      folder: place,
      file: shown,
    });
  }
  return EXIT.done;
}

function conditions({ limits, objectives }: Study): string {
  const held = limits.length === 0 ? 'no limits' : `limits ${limits.map(({ text }) => text).join(', ')}`;
  return `${held}; ${objectives.map(({ sense, text }) => `${sense} ${text}`).join(', ')}`;
}

/** The study with the given limits and objectives in place; null when that has problems, which then stand on stderr. */
function studyToJudge(study: Study, options: FrontOptions, missing: readonly number[], io: Io): Study | null {
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
