import { UsageError } from '../errors.ts';
import { defaultThreads } from '../run/pool.ts';
import { EXIT, type Io, worse } from './io.ts';
import { type RunSettings, runStudy, type StudyEnd, unwritten } from './run-study.ts';

/** As given on the command line; null where the machine decides. */
export type RunOptions = Omit<RunSettings, 'threads' | 'several'> & { readonly threads: number | null };

/** `eddylift run`: one study after the other; one that fails does not stop the rest. The worst exit code. */
export async function run(files: readonly string[], options: RunOptions, io: Io): Promise<number> {
  const settings = { ...options, threads: options.threads ?? defaultThreads(), several: files.length > 1 };
  let code: number = EXIT.done;
  for (const [index, file] of files.entries()) {
    if (index > 0 && !options.quiet) io.stdout.write('\n');
    const end = await worded(() => runStudy(file, settings, io), io);
    if (options.json) io.stdout.write(`${JSON.stringify(end.report)}\n`);
    code = worse(code, end.code);
    if (io.signal.aborted) break;
  }
  return code;
}

/** A mistake ends one study; a bug ends the program. */
async function worded(act: () => Promise<StudyEnd>, io: Io): Promise<StudyEnd> {
  try {
    return await act();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    io.stderr.write(`eddylift: ${error.message}\n`);
    return unwritten(EXIT.usage, 'refused');
  }
}
