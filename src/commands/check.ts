import type { DocumentBody } from '../documents/document-shapes.ts';
import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { defaultThreads } from '../run/default-threads.ts';
import { EXIT, type Io, worse } from '../session/io.ts';
import { loadStudy } from '../session/load-study.ts';
import { printDocument } from '../session/print-document.ts';
import { reportMistake } from '../session/report-problems.ts';
import { timeAside } from '../session/time-aside.ts';
import { listing, widthOf } from '../text/listing.ts';
import {
  describeEstimate,
  describePlan,
  describeVaried,
  type Estimate,
  effortOf,
  estimateOf,
} from '../words/describe-plan.ts';
import { studyNotes } from '../words/study-notes.ts';

export interface CheckOptions {
  readonly allowHuge: boolean;
  /** One document for all studies in place of text. */
  readonly json?: boolean;
}

type CheckedStudy = DocumentBody<'check'>['studies'][number];

/** `eddylift check`: every problem of each study, or what a run of it would do. */
export async function check(files: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const { allowHuge, json = false } = options;
  let code: number = EXIT.done;
  const studies: CheckedStudy[] = [];
  for (const file of files) {
    const checked = await checkFile(file, allowHuge, io);
    if (io.signal.aborted) return EXIT.interrupted;
    if (checked === null) code = worse(code, EXIT.usage);
    else if (!json) io.stdout.write(`${file}: no problems\n${outline(checked, widthOf(io.stdout))}`);
    if (json) studies.push(checked === null ? wrong(file) : inNumbers(file, checked));
  }
  if (json) printDocument(io, 'check', { studies });
  return code;
}

interface Checked {
  readonly study: Study;
  readonly estimate: Estimate;
  readonly threads: number;
}

/** Null where the study is wrong, which is then printed, and where the signal aborts. */
async function checkFile(file: string, allowHuge: boolean, io: Io): Promise<Checked | null> {
  try {
    const study = await loadStudy(file, allowHuge, io);
    if (!study) return null;
    const threads = defaultThreads();
    const estimate = await estimateOf(study, { threads, share: null }, timeAside(study, io));
    return { study, estimate, threads };
  } catch (error) {
    if (io.signal.aborted) return null;
    if (!(error instanceof UsageError)) throw error;
    reportMistake(io, error);
    return null;
  }
}

/** What stands to the left of an entry: an indent, the longest name of a section, a gap. */
const BESIDE = 2 + 'objectives'.length + 2;

function outline({ study, estimate, threads }: Checked, width: number): string {
  const varied = study.vary.map(describeVaried);
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

function inNumbers(file: string, { study, estimate, threads }: Checked): CheckedStudy {
  const { designs, mayBeFewer, atLeast, least, most } = effortOf(estimate);
  return {
    file,
    ok: true,
    study: study.title,
    hash: study.hash,
    designs,
    may_be_fewer: mayBeFewer,
    threads,
    seconds: { least, most: atLeast ? null : most },
    varies: study.vary.map(describeVaried).map(([path, values]) => ({ path, values })),
    limits: study.limits.map(({ text }) => text),
    objectives: study.objectives.map(({ sense, text }) => ({ sense, expression: text })),
    plan: study.vary.length === 0 ? null : describePlan(study.plan),
    notes: [...studyNotes(study)],
  };
}

function wrong(file: string): CheckedStudy {
  return {
    ...{ file, ok: false, study: null, hash: null },
    ...{ designs: null, may_be_fewer: null, threads: null, seconds: null },
    ...{ varies: [], limits: [], objectives: [], plan: null, notes: [] },
  };
}
