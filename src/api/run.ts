import { chooseThreads } from '../session/choose-threads.ts';
import { STDIN } from '../session/read-study-file.ts';
import { runStudy as runInside } from '../session/run-study.ts';
import { createWorld, throwProblems, worded } from './inside/world.ts';
import type { Study } from './types.ts';

export interface RunOptions {
  /** Where the result goes; default: `results/<title>-<hash>` below the working directory. */
  readonly folder?: string;
  /** Worker threads; default: as many as the machine has cores, fewer for a study that is not worth them. */
  readonly threads?: number;
  /** Run again into a new folder where the result is there already. */
  readonly fresh?: boolean;
  /** Write designs.csv even beyond a million rows. */
  readonly csv?: boolean;
  /** Accept a grid of more than 50 million designs. */
  readonly allowHuge?: boolean;
  /** Stops the run; what is finished is kept, and the same call continues. */
  readonly signal?: AbortSignal;
  /** What the command line would print, with a line of progress a minute. */
  readonly onText?: (text: string) => void;
}

/** How a run ended. */
export interface RunReport {
  readonly status: 'done' | 'some designs failed' | 'no report' | 'already done' | 'interrupted';
  /** Null where the run was interrupted. */
  readonly designs: number | null;
  readonly feasible: number | null;
  readonly front: number | null;
  /** What the run took; of a result that was there already, what it took then. */
  readonly seconds: number | null;
  readonly folder: string | null;
}

/**
 * Evaluates every design of a study and writes the result folder, as `eddylift run` does. A study that was read from a text
 * finds its stock and fitted files in the working directory. Throws an EddyliftError where the study or the folder cannot be
 * used.
 */
export async function runStudy(study: Study | string, options: RunOptions = {}): Promise<RunReport> {
  const {
    folder = null,
    threads = null,
    fresh = false,
    csv = false,
    allowHuge = false,
    signal,
    onText,
  } = options;
  const isFile = typeof study === 'string';
  const world = createWorld({ signal, onText, stdin: isFile ? undefined : study.text });
  const settings = {
    ...{
      out: folder,
      threads: chooseThreads(threads, world),
      sparing: threads === null,
      fresh,
      csv,
      allowHuge,
    },
    ...{ several: false, turn: null, quiet: false, json: false, queue: null, share: null },
  };
  const { report } = await worded(() => runInside(isFile ? study : STDIN, settings, world));
  const { status } = report;
  if (status === 'refused') throwProblems(world);
  return report as RunReport;
}
