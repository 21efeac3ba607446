import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { defaultThreads } from '../run/pool.ts';
import { EXIT, type Io, worse } from '../session/io.ts';
import { loadStudy } from '../session/load-study.ts';
import { timeAside } from '../session/time-aside.ts';
import { listing, widthOf } from '../text/listing.ts';
import { describeEstimate, describePlan, describeVaried, estimateOf } from '../words/describe-plan.ts';
import { studyNotes } from '../words/study-notes.ts';

export interface CheckOptions {
  readonly allowHuge: boolean;
}

/** `eddylift check`: every problem of each study, or what a run of it would do. */
export async function check(files: readonly string[], { allowHuge }: CheckOptions, io: Io): Promise<number> {
  let code: number = EXIT.done;
  for (const file of files) {
    code = worse(code, await checkFile(file, allowHuge, io));
    if (io.signal.aborted) return EXIT.interrupted;
  }
  return code;
}

async function checkFile(file: string, allowHuge: boolean, io: Io): Promise<number> {
  try {
    const study = await loadStudy(file, allowHuge, io);
    if (!study) return EXIT.usage;
    io.stdout.write(`${file}: no problems\n${await outline(study, io)}`);
    return EXIT.done;
  } catch (error) {
    if (io.signal.aborted) return EXIT.interrupted;
    if (!(error instanceof UsageError)) throw error;
    io.stderr.write(`eddylift: ${error.message}\n`);
    return EXIT.usage;
  }
}

/** What stands to the left of an entry: an indent, the longest name of a section, a gap. */
const BESIDE = 2 + 'objectives'.length + 2;

async function outline(study: Study, io: Io): Promise<string> {
  const varied = study.vary.map(describeVaried);
  const width = widthOf(io.stdout);
  const rows = [
    // a list in the list, so that a long line goes on below its own beginning
    ...section(
      'varies',
      varied.length === 0
        ? ['nothing: one design']
        : listing(varied, width - BESIDE, 0)
            .trimEnd()
            .split('\n'),
    ),
    ...section(
      'limits',
      study.limits.map(({ text }) => text),
    ),
    ...section(
      'objectives',
      study.objectives.map(({ sense, text }) => `${sense} ${text}`),
    ),
    ...(varied.length === 0 ? [] : section('plan', [describePlan(study.plan)])),
    ...section('note', studyNotes(study)),
  ];
  const threads = defaultThreads();
  const estimate = await estimateOf(study, { threads, share: null }, timeAside(study, io));
  const heading = [study.title, describeEstimate(estimate, threads)];
  return (
    listing(
      heading.map((line) => [line]),
      width,
    ) + listing(rows, width)
  );
}

/** Its name stands beside the first entry. */
function section(name: string, entries: readonly string[]): string[][] {
  return entries.map((entry, i) => [i === 0 ? name : '', entry]);
}
