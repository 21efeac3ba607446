import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import { createBatchProgress } from '../run/batch-progress.ts';
import { createBatch } from '../session/batch.ts';
import { chooseThreads } from '../session/choose-threads.ts';
import { forecastStudies, formatForecast } from '../session/forecast.ts';
import { EXIT, type Io, worse } from '../session/io.ts';
import { printDocument } from '../session/print-document.ts';
import type { QueueChoice } from '../session/queue-settings.ts';
import type { RunQueue } from '../session/queue-workforce.ts';
import { STDIN } from '../session/read-study-file.ts';
import { reportMistake } from '../session/report-problems.ts';
import { type RunSettings, runStudy, type StudyEnd, unwritten } from '../session/run-study.ts';
import { FIGURES } from '../store/result-files.ts';
import { widthOf } from '../text/listing.ts';
import { readDuration } from '../text/read-duration.ts';

/** As given on the command line; null where the machine decides. */
export type RunOptions = Omit<RunSettings, 'threads' | 'sparing' | 'several' | 'turn' | 'queue'> & {
  readonly threads: number | null;
  /** Figures as PNG, too. */
  readonly png: boolean;
  readonly queue: (QueueChoice & { readonly timeout: string }) | null;
};

/** `eddylift run`: one study, or several one after the other. The worst exit code. */
export async function run(files: readonly string[], options: RunOptions, io: Io): Promise<number> {
  // what cannot be had is reported before anything is written
  if (options.png) await (await import('../session/draw-pngs.ts')).requirePngs();
  const queue = options.queue && (await openQueue(options.queue, io));
  const threads = chooseThreads(options.threads, io);
  const sparing = options.threads === null;
  const several = files.length > 1;
  if (several) return runSeveral(files, { ...options, queue, threads, sparing, several }, io);
  const settings = { ...options, queue, threads, sparing, several, turn: null };
  const file = files[0]!;
  const { code, report } = await worded(() => runFile(file, settings, io), io);
  if (options.json) printDocument(io, 'run', { ...report, studies: [{ file, code, ...report }] });
  return code;
}

/** `eddylift run --watch`: the study now, and each time its file changes, until the signal aborts. */
export async function runOnChange(files: readonly string[], options: RunOptions, io: Io): Promise<number> {
  const [file, ...more] = files;
  if (more.length > 0) throw new UsageError('--watch is for one study');
  if (file === STDIN) throw new UsageError('--watch is for a study in a file');
  const { watchStudy } = await import('../session/watch-study.ts');
  let code: number = EXIT.done;
  await watchStudy(file!, io, async () => {
    code = await run([file!], options, io);
    if (!io.signal.aborted) io.stdout.write(`\nWatching ${file}: save it to run again, Ctrl-C ends.\n\n`);
  });
  return code;
}

/** Longest time to wait for a queue, s. */
const LONGEST_TIMEOUT = 30 * 86_400;

async function openQueue(choice: QueueChoice & { readonly timeout: string }, io: Io): Promise<RunQueue> {
  const { requireQueuePackages } = await import('../session/require-queue-packages.ts');
  await requireQueuePackages();
  const { queueSettings } = await import('../session/queue-settings.ts');
  const timeout = readDuration(choice.timeout);
  if (timeout === null || timeout < 1 || timeout > LONGEST_TIMEOUT) {
    throw new UsageError(
      `--queue-timeout ${JSON.stringify(choice.timeout)}: wanted a time with its unit, 1 s to 30 d, such as '10 min' or '2 h'`,
    );
  }
  return { ...(await queueSettings(choice, io.cwd)), timeout: 1000 * timeout, begun: false, lost: false };
}

/** One that fails, for whatever reason, does not stop the rest. */
async function runSeveral(
  files: readonly string[],
  settings: Omit<FileSettings, 'turn'>,
  io: Io,
): Promise<number> {
  const batch = createBatch(files, settings.out, io);
  const forecasts = await forecastStudies(files, settings, io);
  if (!io.signal.aborted)
    io.stdout.write(`${formatForecast(forecasts, settings.threads, widthOf(io.stdout))}\n`);
  const progress = createBatchProgress(
    forecasts.map(({ least }) => least),
    io.now,
  );
  let code: number = EXIT.done;
  for (const [index, file] of files.entries()) {
    const turn = { index, of: files.length, progress };
    if (!settings.quiet) io.stdout.write(`\nStudy ${index + 1} of ${files.length}: ${file}\n`);
    const end = await guarded(() => worded(() => runFile(file, { ...settings, turn }, io), io), file, io);
    code = worse(code, end.code);
    progress.end(index);
    await batch.note(index, end);
    if (io.signal.aborted) break;
  }
  const report = await batch.finish();
  if (settings.json) printDocument(io, 'run', report);
  return code;
}

type FileSettings = RunSettings & Pick<RunOptions, 'png'>;

/** A study, and what is made of its figures. */
async function runFile(file: string, settings: FileSettings, io: Io): Promise<StudyEnd> {
  const end = await runStudy(file, settings, io);
  const { status, folder } = end.report;
  const isFinished = status === 'done' || status === 'already done' || status === 'some designs failed';
  if (settings.png && isFinished && folder !== null) {
    const { drawPngs } = await import('../session/draw-pngs.ts');
    await drawPngs(resolve(io.cwd, folder));
    if (!settings.quiet) io.stdout.write(`Figures as PNG: ${join(folder, FIGURES)}\n`);
  }
  return end;
}

/** A mistake ends one study. */
async function worded(act: () => Promise<StudyEnd>, io: Io): Promise<StudyEnd> {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    reportMistake(io, error);
    return unwritten(EXIT.usage, 'refused');
  }
}

/** A bug ends the only study's program, but not a night's batch. */
async function guarded(act: () => Promise<StudyEnd>, file: string, io: Io): Promise<StudyEnd> {
  try {
    return await act();
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    reportMistake(io, {
      message: `${file}: unexpected error, please report it: ${message.split('\n')[0]}`,
    });
    return unwritten(EXIT.unexpected, 'broken off');
  }
}
