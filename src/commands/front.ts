import { join } from 'node:path';
import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { chooseThreads } from '../session/choose-threads.ts';
import { findResult } from '../session/find-result.ts';
import { EXIT, type Io } from '../session/io.ts';
import { judgeable } from '../session/judgeable.ts';
import { printDocument } from '../session/print-document.ts';
import { refront } from '../session/refront.ts';
import { type AskedCriteria, studyToJudge } from '../session/study-to-judge.ts';
import { wholeParts } from '../session/whole-parts.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import { missingQuantities } from '../store/parts.ts';
import { stampOf } from '../store/result-folder.ts';
import { otherFrontFiles, writeOtherFront } from '../store/write-front.ts';
import { inCurrency } from '../text/currency.ts';
import { grouped } from '../text/grouped.ts';
import { widthOf, wrap } from '../text/listing.ts';
import { formatSeconds } from '../words/describe-counts.ts';
import { describeFindings } from '../words/describe-findings.ts';
import { describeOutcome } from '../words/describe-outcome.ts';
import { count } from '../words/describe-plan.ts';

export interface FrontOptions extends AskedCriteria {
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

  // the workbook's package takes a while to load: that goes on beside the threads; whoever writes it hears what is wrong
  import('../store/front-xlsx.ts').catch(() => {});
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
  const { csv: file, workbook } = otherFrontFiles(judged);
  const shown = join(place, file);
  const seconds = (io.now() - began) / 1000;

  const { designs, feasible } = found;
  io.stdout.write(
    `${study.title}\n${conditions(judged)}\n\n${count(designs, 'design')} judged anew in ${formatSeconds(seconds)}: ${grouped(feasible)} feasible, ${grouped(found.front.count)} on the Pareto front.\n`,
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
  io.stdout.write(`\nFront: ${shown}\nFor a spreadsheet: ${join(place, workbook)}\n`);
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
