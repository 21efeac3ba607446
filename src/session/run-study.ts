import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import type { Share } from '../plan/share.ts';
import { threadsWorth } from '../plan/threads-worth.ts';
import { compileAsUsual, compileLate } from '../run/late-compiling.ts';
import type { Workforce } from '../run/workforce.ts';
import { FolderError } from '../store/folder-error.ts';
import type { Parts } from '../store/parts.ts';
import { type OpenResult, openResult, stampOf } from '../store/result-folder.ts';
import type { RunFacts } from '../store/run-record.ts';
import { readRunSummary } from '../store/run-summary.ts';
import { widthOf } from '../text/listing.ts';
import { describeCounts } from '../words/describe-counts.ts';
import { count, describeEstimate, estimateOf, type TimeDesigns } from '../words/describe-plan.ts';
import { type ChosenFolder, chooseFolder } from './choose-folder.ts';
import type { Conclusion } from './conclude.ts';
import { evaluateAll } from './evaluate-all.ts';
import { EXIT, type Io } from './io.ts';
import { loadStudy } from './load-study.ts';
import { origin } from './origin.ts';
import { queueWorkforce, type RunQueue } from './queue-workforce.ts';
import { describeReportFault } from './report-fault.ts';
import { createRunProgress, type Turn } from './run-progress.ts';
import { createWorkforceHere, isShort } from './short-study.ts';
import { studyTimeLimit } from './study-time-limit.ts';
import { timeAside } from './time-aside.ts';
import { version } from './version.ts';
import { type FolderWatch, watchFolder } from './watch-folder.ts';

// Past 300 lines: the steps of a run and how each may end, in their order.

export interface RunSettings {
  /** The result folder; with several studies, the folder for theirs. Null: below `results`. */
  readonly out: string | null;
  readonly threads: number;
  /** Whether a study that is not worth so many threads gets fewer: nobody named a number. */
  readonly sparing: boolean;
  /** Whether it is one of several studies. */
  readonly several: boolean;
  /** Which of several it is; null for the only one. */
  readonly turn: Turn | null;
  readonly fresh: boolean;
  readonly quiet: boolean;
  readonly json: boolean;
  readonly csv: boolean;
  readonly allowHuge: boolean;
  /** The workers that evaluate; null: this machine. */
  readonly queue: RunQueue | null;
  /** Do this share of the batches and leave the tables to a later run; null: do all. */
  readonly share: Share | null;
}

/** How a study ended, for `--json`; numbers are null where there is no finished result. */
export interface RunReport {
  readonly status:
    | 'done'
    | 'share done'
    | 'some designs failed'
    | 'no report'
    | 'already done'
    | 'refused'
    | 'broken off'
    | 'interrupted';
  readonly designs: number | null;
  readonly feasible: number | null;
  readonly front: number | null;
  readonly seconds: number | null;
  readonly folder: string | null;
}

export interface StudyEnd {
  readonly code: number;
  readonly report: RunReport;
}

/** Rows beyond which CSV is written only on demand: no spreadsheet opens it. */
const MOST_CSV_ROWS = 1_000_000;

/** Runs one study from its file to its tables. Throws UsageError when a file or folder cannot be used. */
export async function runStudy(file: string, settings: RunSettings, io: Io): Promise<StudyEnd> {
  // 1. what to run, and whether its result is there
  const study = await loadStudy(file, settings.allowHuge, io);
  if (!study) return unwritten(EXIT.usage, 'refused');
  const folder = await chooseFolder(study, { ...settings, cwd: io.cwd });
  // rows of another origin cannot be described by this program
  if (folder.finished && !folder.reported && folder.changed === null && !settings.share) {
    return makeMissingReport(file, study, folder, settings, reportDamage(file, io), io);
  }
  if (folder.finished) {
    io.stdout.write(`${describeDone(file, folder)}\n`);
    return finishedBefore(folder);
  }
  if (settings.share) refuseSearch(file, study);
  const threads = threadsFor(study, settings);
  // those of this machine start at once and are tried out; where others evaluate, one may be wanted later
  const stamp = stampOf(study.hash, origin());
  const isHere = settings.queue === null && isShort(study);
  if (isHere) compileLate();
  const pools = isHere ? null : await import('../run/workforce.ts');
  const local = (many: number) =>
    pools!.createLocalWorkforce({
      ...{ task: study, stamp, threads: many, designs: createPlan(study).total ?? 0 },
      timeLimit: studyTimeLimit(study, io.now),
    });
  const workers = settings.queue !== null ? null : isHere ? createWorkforceHere(study, io) : local(threads);
  const stop = () => void workers?.stop();
  io.signal.addEventListener('abort', stop);
  try {
    const time = workers?.time ?? timeAside(study, io);
    const workforce = (facts: RunFacts) =>
      workers ?? queueWorkforce(settings.queue!, study, facts.origin, { local, threads }, io);
    return await runChosen(file, study, folder, { ...settings, threads }, { time, workforce }, io);
  } finally {
    io.signal.removeEventListener('abort', stop);
    await workers?.stop();
    // the process may be somebody else's, who uses the library, and goes on
    compileAsUsual();
  }
}

/** How many threads evaluate a study. */
export function threadsFor(
  study: Study,
  { threads, sparing, share }: Pick<RunSettings, 'threads' | 'sparing' | 'share'>,
): number {
  const plan = createPlan(study);
  return sparing ? threadsWorth(study, plan, threads, share?.of) : Math.min(threads, plan.atOnce);
}

const UNTRIED: TimeDesigns = async () => ({ seconds: 0, slowdown: 1, atLeast: false });

/** Who tries designs out and who evaluates them. */
interface Evaluators {
  readonly time: TimeDesigns;
  readonly workforce: (facts: RunFacts) => Workforce | Promise<Workforce>;
}

/** Prints which part cannot be used and why. */
function reportDamage(file: string, io: Io) {
  return (part: string, what: string, designs: number): void => {
    io.stderr.write(
      `eddylift: ${file}: part ${part} cannot be used, ${what}: ${count(designs, 'design')} computed again\n`,
    );
  };
}

/** Runs a study whose folder is chosen. */
async function runChosen(
  file: string,
  study: Study,
  folder: ChosenFolder,
  settings: RunSettings,
  evaluators: Evaluators,
  io: Io,
): Promise<StudyEnd> {
  const { threads } = settings;
  const print = (text: string) => {
    if (!settings.quiet) io.stdout.write(`${text}\n`);
  };
  // whom nobody tells how long a run takes tries nothing
  const isTold = !settings.quiet || settings.turn !== null;
  const estimate = await estimateOf(study, settings, isTold ? evaluators.time : UNTRIED).catch((error) => {
    if (!io.signal.aborted) throw error;
    return null;
  });
  if (estimate === null || io.signal.aborted) {
    io.stderr.write(`eddylift: ${file}: interrupted before it began; the same command begins or continues\n`);
    return unwritten(EXIT.interrupted, 'interrupted');
  }
  const progressOf = createRunProgress(file, estimate, settings, io);
  print(`${study.title}\n${describeEstimate(estimate, threads)}`);

  // 2. evaluate, 3. write
  const began = io.now();
  const facts = factsOf(study, threads, began);
  const result = await openResult(folder.path, study, facts, reportDamage(file, io));
  const watch = watchFolder(folder.path, result.parts.list);
  let done: Done | Shared | Interrupted;
  try {
    const kept = designsIn(result.parts);
    if (kept > 0) print(`Continuing: ${count(kept, 'design')} there already.`);
    const signal = anyOf(io.signal, watch.signal);
    const filling = { folder: folder.path, study, result, facts, settings, evaluators, progressOf };
    done = await fillResult(filling, { ...io, signal });
    if (watch.signal.aborted) throw new Error('the folder is not what it was');
  } catch (error) {
    throw await describeKept(error, folder, watch);
  } finally {
    watch.stop();
    await result.close();
  }
  if ('interrupted' in done) return describeInterrupted(file, done.interrupted, io);
  if ('shared' in done) return describeShared(file, settings.share!, folder.shown, done, io);
  const { conclusion, fault } = done;
  const { counts, seconds } = conclusion;

  // 4. print
  const failed = counts.statuses.failed;
  if (settings.quiet) io.stdout.write(`${file}: ${describeCounts(counts, seconds, study)} ${folder.shown}\n`);
  else {
    const { describeConclusion } = await import('./conclude.ts');
    print(describeConclusion(study, conclusion, folder.shown, widthOf(io.stdout)));
  }
  if (fault !== null) io.stderr.write(`eddylift: ${file}: ${describeFault(failed, fault)}\n`);
  const { reportFault } = conclusion;
  if (reportFault !== null) io.stderr.write(`eddylift: ${file}: ${describeReportFault(reportFault)}\n`);
  const [code, status] =
    failed > 0 ? ([EXIT.someFailed, 'some designs failed'] as const) : ([EXIT.done, 'done'] as const);
  return {
    code: reportFault === null ? code : EXIT.unexpected,
    report: {
      status: reportFault === null ? status : 'no report',
      designs: counts.designs,
      feasible: counts.feasible,
      front: counts.front,
      seconds,
      folder: folder.shown,
    },
  };
}

/** A finished result whose report failed, or was taken away: it is made of the parts. */
async function makeMissingReport(
  file: string,
  study: Study,
  { path, shown }: ChosenFolder,
  settings: RunSettings,
  onDamage: (part: string, what: string, designs: number) => void,
  io: Io,
): Promise<StudyEnd> {
  const { remakeReport } = await import('./remake-report.ts');
  const facts = factsOf(study, settings.threads, io.now());
  // rows are read, not evaluated: there is nothing to try out
  const estimate = await estimateOf(study, settings, UNTRIED);
  const progress = createRunProgress(file, estimate, settings, io)('evaluating');
  const done = await remakeReport({ folder: path, study, facts, progress, onDamage }, io);
  if (done === null) {
    io.stderr.write(
      `eddylift: ${file}: interrupted; the tables stand, and the same command makes the report\n`,
    );
    return unwritten(EXIT.interrupted, 'interrupted', shown);
  }
  if (done.fault !== null) {
    io.stderr.write(`eddylift: ${file}: ${describeReportFault(done.fault)}\n`);
    return unwritten(EXIT.unexpected, 'no report', shown);
  }
  io.stdout.write(`${file}: already done, see ${shown}; its report was missing and has been made\n`);
  return finishedBefore({ path, shown });
}

/** What a finished result prints of itself, for whoever runs its study again. */
async function finishedBefore({ path, shown }: Pick<ChosenFolder, 'path' | 'shown'>): Promise<StudyEnd> {
  const summary = await readRunSummary(path);
  const { designs = null, feasible = null, front = null } = summary?.counts ?? {};
  const seconds = summary?.seconds ?? null;
  return {
    code: EXIT.done,
    report: { status: 'already done', designs, feasible, front, seconds, folder: shown },
  };
}

function describeDone(file: string, { shown, changed }: ChosenFolder): string {
  if (changed === null) return `${file}: already done, see ${shown} (--fresh runs it again in a new place)`;
  return `${file}: already done, see ${shown}, but with ${changed}; --fresh computes it anew in a new place`;
}

export function unwritten(code: number, status: RunReport['status'], folder: string | null = null): StudyEnd {
  return { code, report: { status, designs: null, feasible: null, front: null, seconds: null, folder } };
}

function factsOf({ plan }: Study, threads: number, began: number): RunFacts {
  return {
    version: version(),
    origin: origin(),
    node: process.version,
    threads,
    // a grid draws nothing at random
    seed: plan.kind === 'grid' ? null : plan.seed,
    started: new Date(began).toISOString(),
  };
}

interface Done {
  readonly conclusion: Conclusion;
  readonly fault: string | null;
}

interface Shared {
  /** Designs of the share. */
  readonly shared: number;
  readonly fault: string | null;
}

interface Interrupted {
  /** Designs that are on disk. */
  readonly interrupted: number;
}

/** A run whose result folder is open. */
interface Filling {
  readonly folder: string;
  readonly study: Study;
  readonly result: OpenResult;
  readonly facts: RunFacts;
  readonly settings: RunSettings;
  readonly evaluators: Evaluators;
  readonly progressOf: ReturnType<typeof createRunProgress>;
}

/** Evaluates what is not there yet, writes the tables and marks the result as finished. */
async function fillResult(filling: Filling, io: Io): Promise<Done | Shared | Interrupted> {
  const { folder, study, facts, settings, evaluators, progressOf } = filling;
  const { parts } = filling.result;
  const { threads } = settings;
  const stamp = stampOf(study.hash, facts.origin);
  const workforce = await evaluators.workforce(facts);
  // what writes and prints takes a while to load: that goes on beside the threads
  const ending = settings.share ? null : import('./conclude.ts');
  // it is awaited when its turn comes; until then a rejection is nobody's yet
  ending?.catch(() => {});
  const evaluated = await evaluateAll(
    study,
    parts,
    { workforce, share: settings.share, progress: progressOf('evaluating') },
    io,
  );
  const { interrupted, designs, fault } = evaluated;
  if (interrupted) return { interrupted: designsIn(parts) };
  if (ending === null) return { shared: designs, fault };

  const { conclude } = await ending;
  const csv = settings.csv || designs <= MOST_CSV_ROWS;
  const progress = progressOf('writing');
  const conclusion = await conclude(
    { folder, study, facts, stamp, parts: parts.list(), evaluated, csv, threads, progress },
    io,
  );
  return conclusion ? { conclusion, fault } : { interrupted: designsIn(parts) };
}

function designsIn(parts: Parts): number {
  return parts.list().reduce((sum, { count }) => sum + count, 0);
}

/** A signal that aborts with the first of two. */
function anyOf(...signals: readonly AbortSignal[]): AbortSignal {
  const either = new AbortController();
  for (const signal of signals) {
    if (signal.aborted) either.abort();
    else signal.addEventListener('abort', () => either.abort(), { once: true });
  }
  return either.signal;
}

/** A disk that fails in the middle of a run loses nothing that was finished, unless somebody removed it. */
async function describeKept(error: unknown, { shown }: ChosenFolder, watch: FolderWatch): Promise<unknown> {
  const gone = watch.signal.aborted || error instanceof FolderError ? await watch.look() : null;
  if (gone !== null) {
    return new UsageError(`${shown}: ${gone}; the same command computes again what is missing`, {
      cause: error,
    });
  }
  if (!(error instanceof FolderError) || error.code === 'ENOENT') return error;
  return new UsageError(`${error.message}; what was finished is kept, and the same command continues`, {
    cause: error,
  });
}

/** Throws UsageError for a search: what it does next hangs on all that it has found. */
export function refuseSearch(file: string, { plan }: Study): void {
  if (plan.kind === 'grid' || plan.kind === 'sobol') return;
  throw new UsageError(
    `${file}: a search (plan: ${plan.kind}) cannot be shared out beforehand; --queue runs it on several machines`,
  );
}

function describeShared(file: string, { part, of }: Share, folder: string, done: Shared, io: Io): StudyEnd {
  io.stdout.write(
    `${file}: share ${part} of ${of}, ${count(done.shared, 'design')}: ${folder}\n` +
      `Copy the shares into one folder; eddylift run ${file} --out THAT_FOLDER then makes the tables.\n`,
  );
  if (done.fault !== null)
    io.stderr.write(`eddylift: ${file}: the first design that broke off: ${done.fault}\n`);
  const code = done.fault === null ? EXIT.done : EXIT.someFailed;
  return { code, report: { ...unwritten(code, 'share done', folder).report, designs: done.shared } };
}

function describeInterrupted(file: string, designs: number, io: Io): StudyEnd {
  const kept =
    designs > 0 ? `after ${count(designs, 'design')}, which are kept` : 'before any design was finished';
  io.stderr.write(`eddylift: ${file}: interrupted ${kept}; the same command continues\n`);
  return unwritten(EXIT.interrupted, 'interrupted');
}

function describeFault(failed: number, fault: string): string {
  return `${count(failed, 'design')} failed; the first one whose evaluation broke off: ${fault.split('\n')[0]}`;
}
