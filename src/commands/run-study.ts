import type { RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { createResultFolder, finishResult } from '../store/result-folder.ts';
import type { RunFacts } from '../store/run-record.ts';
import { writeTables } from '../store/write-tables.ts';
import { chooseFolder } from './choose-folder.ts';
import { count, sayEffort } from './describe.ts';
import { evaluateAll } from './evaluate-all.ts';
import { EXIT, type Io } from './io.ts';
import { widthOf } from './listing.ts';
import { loadStudy } from './load-study.ts';
import { sayCounts, sayFindings } from './summary.ts';
import { version } from './version.ts';

export interface RunSettings {
  /** The result folder; with several studies, the folder for theirs. Null: below `results`. */
  readonly out: string | null;
  readonly threads: number;
  /** Whether it is one of several studies. */
  readonly several: boolean;
  readonly fresh: boolean;
  readonly quiet: boolean;
  readonly json: boolean;
  readonly csv: boolean;
  readonly allowHuge: boolean;
}

/** How a study ended, for `--json`; numbers are null where nothing new was written. */
export interface RunReport {
  readonly status: 'done' | 'some designs failed' | 'already done' | 'refused' | 'interrupted';
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
  const say = (text: string) => {
    if (!settings.quiet) io.stdout.write(`${text}\n`);
  };

  // 1. what is asked, and whether it has been answered
  const study = await loadStudy(file, settings.allowHuge, io);
  if (!study) return unwritten(EXIT.usage, 'refused');
  const folder = await chooseFolder(study, { ...settings, cwd: io.cwd });
  if (folder.finished) {
    io.stdout.write(`${file}: already done, see ${folder.shown} (--fresh runs it again in a new place)\n`);
    return unwritten(EXIT.done, 'already done', folder.shown);
  }
  say(`${study.title}\n${sayEffort(study, settings.threads, io.now)}`);

  // 2. evaluate
  const began = io.now();
  const facts = factsOf(settings.threads, began);
  await createResultFolder(folder.path, study, facts);
  const effort = { threads: settings.threads, progress: !settings.quiet };
  const { interrupted, batches, designs, front, fault, whyEmpty } = await evaluateAll(study, effort, io);
  if (interrupted) return sayInterrupted(file, designs, io);

  // 3. write
  const csv = settings.csv || designs <= MOST_CSV_ROWS;
  const written = await writeUnlessAborted(folder.path, { study, batches, front, csv }, io.signal);
  if (!written) return sayInterrupted(file, designs, io);
  const ended = io.now();
  const seconds = (ended - began) / 1000;
  const end = { finished: new Date(ended).toISOString(), seconds };
  await finishResult(folder.path, study, facts, written.counts, end);

  // 4. say
  const { counts } = written;
  const failed = counts.statuses.failed;
  if (settings.quiet) io.stdout.write(`${file}: ${sayCounts(counts, seconds)} ${folder.shown}\n`);
  say(`\n${sayCounts(counts, seconds)}\n`);
  say(written.front.count > 0 ? sayFindings(study, written.front, widthOf(io.stdout)) : whyEmpty);
  if (!csv) say(`\nMore than a million rows: designs.csv is written only with --csv.`);
  say(`\nResults: ${folder.shown}`);
  if (fault !== null) io.stderr.write(`eddylift: ${file}: ${sayFault(failed, fault)}\n`);
  return {
    code: failed > 0 ? EXIT.someFailed : EXIT.done,
    report: {
      status: failed > 0 ? 'some designs failed' : 'done',
      designs: counts.designs,
      feasible: counts.feasible,
      front: counts.front,
      seconds,
      folder: folder.shown,
    },
  };
}

export function unwritten(code: number, status: RunReport['status'], folder: string | null = null): StudyEnd {
  return { code, report: { status, designs: null, feasible: null, front: null, seconds: null, folder } };
}

function factsOf(threads: number, began: number): RunFacts {
  return {
    version: version(),
    node: process.version,
    threads,
    // a grid leaves nothing to chance
    seed: null,
    started: new Date(began).toISOString(),
  };
}

interface Tables {
  readonly study: Study;
  readonly batches: readonly RowBatch[];
  readonly front: Float64Array;
  readonly csv: boolean;
}

class Aborted extends Error {}

/** Null, and no tables, when the signal aborts before they stand. */
async function writeUnlessAborted(folder: string, tables: Tables, signal: AbortSignal) {
  function* batches() {
    for (const batch of tables.batches) {
      if (signal.aborted) throw new Aborted();
      yield batch;
    }
  }
  try {
    return await writeTables(folder, { ...tables, batches: batches() });
  } catch (error) {
    if (error instanceof Aborted) return null;
    throw error;
  }
}

function sayInterrupted(file: string, designs: number, io: Io): StudyEnd {
  io.stderr.write(
    `eddylift: ${file}: interrupted after ${count(designs, 'design')}; no tables were written\n`,
  );
  return unwritten(EXIT.interrupted, 'interrupted');
}

function sayFault(failed: number, fault: string): string {
  return `${count(failed, 'design')} failed; the first one whose evaluation broke off: ${fault.split('\n')[0]}`;
}
