import { join } from 'node:path';
import { UsageError } from '../errors.ts';
import { findResult } from '../session/find-result.ts';
import { EXIT, type Io } from '../session/io.ts';
import { resultFront } from '../session/result-front.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { readRunSummary } from '../store/run-summary.ts';
import { listing, widthOf, wrap } from '../text/listing.ts';
import { describeCounts } from '../words/describe-counts.ts';
import { describeFindings } from '../words/describe-findings.ts';
import { count, describePlan, describeVaried } from '../words/describe-plan.ts';
import { designWords } from '../words/design-words.ts';

/** `eddylift show`: what a result holds, as its run printed it, or how far it is. Evaluates nothing and writes nothing. */
export async function show(place: string, io: Io): Promise<number> {
  const result = await findResult(place, io);
  if (!result) return EXIT.usage;
  const summary = await readRunSummary(result.folder);
  if (summary === null) throw new UsageError(`${place} is no result`);
  const { study } = result;
  const width = widthOf(io.stdout);
  const facts: string[][] = [
    ...study.vary.map((varied) => ['varies', describeVaried(varied).join(': ')]),
    ...study.limits.filter(({ implied }) => !implied).map(({ text }) => ['limit', text]),
    ...study.objectives.map(({ sense, text }) => ['objective', `${sense} ${text}`]),
    ...(study.vary.length > 0 ? [['plan', describePlan(study.plan)]] : []),
    ['started', `${summary.started ?? 'unknown'}, by version ${summary.eddylift}`],
  ];
  const lines = [
    ...wrap(study.title, width),
    ...(study.notes === '' ? [] : ['', ...wrap(study.notes.replaceAll('\n', ' '), width)]),
  ];
  io.stdout.write(`${lines.join('\n')}\n\n${listing(facts, width)}\n`);
  const { counts, seconds, finished, kept } = summary;
  if (finished === null || counts === null) {
    io.stdout.write(
      `Not finished: ${count(kept, 'design')} so far; the command that began it continues it.\n`,
    );
    return EXIT.done;
  }
  io.stdout.write(`${describeCounts(counts, seconds ?? 0, study)}\n\n`);
  const found = await resultFront(result, place, io);
  if (found === null) return EXIT.interrupted;
  const { front } = found;
  if (study.objectives.length === 0) {
    const words =
      front.count === 1
        ? designWords(study, front, 0)
        : 'The study has no objectives, so there is no front: the tables hold every design.';
    io.stdout.write(`${wrap(words, width).join('\n')}\n`);
  } else if (front.count > 0) io.stdout.write(`${describeFindings(found.study, front, width)}\n`);
  else io.stdout.write('The front is empty; the report shows why.\n');
  io.stdout.write(`\nReport: ${join(place, RESULT_FILES.report)}\n`);
  return EXIT.done;
}
