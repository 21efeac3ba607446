import { UsageError } from '../errors.ts';
import { createBatchProgress } from '../run/batch-progress.ts';
import { createBatch } from '../session/batch.ts';
import { chooseThreads } from '../session/choose-threads.ts';
import { forecastStudies, sayForecast } from '../session/forecast.ts';
import { EXIT, type Io, worse } from '../session/io.ts';
import { type RunSettings, runStudy, type StudyEnd, unwritten } from '../session/run-study.ts';
import { widthOf } from '../text/listing.ts';

/** As given on the command line; null where the machine decides. */
export type RunOptions = Omit<RunSettings, 'threads' | 'several' | 'turn'> & {
  readonly threads: number | null;
};

/** `eddylift run`: one study, or several one after the other. The worst exit code. */
export async function run(files: readonly string[], options: RunOptions, io: Io): Promise<number> {
  if (options.queue) {
    // an address that is none is told before anything is written
    const { queueAddress } = await import('../queue/address.ts');
    queueAddress(options.queue.address, options.queue.password);
  }
  const threads = chooseThreads(options.threads, io);
  const several = files.length > 1;
  if (several) return runSeveral(files, { ...options, threads, several }, io);
  const settings = { ...options, threads, several, turn: null };
  const { code, report } = await worded(() => runStudy(files[0]!, settings, io), io);
  if (options.json) io.stdout.write(`${JSON.stringify(report)}\n`);
  return code;
}

/** One that fails, for whatever reason, does not stop the rest. */
async function runSeveral(
  files: readonly string[],
  settings: Omit<RunSettings, 'turn'>,
  io: Io,
): Promise<number> {
  const batch = createBatch(files, settings.out, io);
  const forecasts = await forecastStudies(files, settings, io);
  if (!io.signal.aborted)
    io.stdout.write(`${sayForecast(forecasts, settings.threads, widthOf(io.stdout))}\n`);
  const progress = createBatchProgress(
    forecasts.map(({ seconds }) => seconds),
    io.now,
  );
  let code: number = EXIT.done;
  for (const [index, file] of files.entries()) {
    const turn = { index, of: files.length, progress };
    if (!settings.quiet) io.stdout.write(`\nStudy ${index + 1} of ${files.length}: ${file}\n`);
    const end = await guarded(() => worded(() => runStudy(file, { ...settings, turn }, io), io), file, io);
    code = worse(code, end.code);
    progress.end(index);
    await batch.note(index, end);
    if (io.signal.aborted) break;
  }
  const report = await batch.finish();
  if (settings.json) io.stdout.write(`${JSON.stringify(report)}\n`);
  return code;
}

/** A mistake ends one study. */
async function worded(act: () => Promise<StudyEnd>, io: Io): Promise<StudyEnd> {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    io.stderr.write(`eddylift: ${error.message}\n`);
    return unwritten(EXIT.usage, 'refused');
  }
}

/** A bug ends the only study's program, but not a night's batch. */
async function guarded(act: () => Promise<StudyEnd>, file: string, io: Io): Promise<StudyEnd> {
  try {
    return await act();
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    io.stderr.write(`eddylift: ${file}: unexpected error, please report it: ${message.split('\n')[0]}\n`);
    return unwritten(EXIT.unexpected, 'broken off');
  }
}
