import { resolve } from 'node:path';
import { type BatchStudy, writeBatch } from '../store/batch-record.ts';
import { grouped } from '../text/grouped.ts';
import { listing, widthOf } from '../text/listing.ts';
import { formatSeconds } from '../words/describe-counts.ts';
import { RESULTS } from './choose-folder.ts';
import type { Io } from './io.ts';
import type { RunReport, StudyEnd } from './run-study.ts';
import { version } from './version.ts';

/** Several studies run one after the other: what became of each, on disk as soon as it is known. */
export interface Batch {
  note(index: number, end: StudyEnd): Promise<void>;
  /** Prints the summary; the whole as one report. */
  finish(): Promise<BatchReport>;
}

/** How a batch ended, for `--json`; numbers are sums over its studies. */
export interface BatchReport {
  readonly status: RunReport['status'];
  readonly designs: number;
  readonly feasible: number;
  readonly front: number;
  readonly seconds: number;
  readonly folder: string;
  readonly studies: NotedStudy[];
}

/** A study of a batch and how it ended, or that its turn is to come. */
type NotedStudy = BatchStudy & { readonly status: RunReport['status'] | 'to come' };

export function createBatch(files: readonly string[], out: string | null, io: Io): Batch {
  const shown = out ?? RESULTS;
  const began = io.now();
  const studies: NotedStudy[] = files.map((file) => ({
    file,
    status: 'to come',
    code: null,
    designs: null,
    feasible: null,
    front: null,
    seconds: null,
    folder: null,
  }));

  async function record(finished: boolean): Promise<number> {
    const now = io.now();
    const seconds = (now - began) / 1000;
    // where nothing was written, a record would be the only thing there
    if (studies.some(({ folder }) => folder !== null)) {
      await writeBatch(resolve(io.cwd, shown), {
        eddylift: version(),
        started: new Date(began).toISOString(),
        finished: finished ? new Date(now).toISOString() : null,
        seconds,
        studies,
      });
    }
    return seconds;
  }

  return {
    async note(index, { code, report }) {
      studies[index] = { file: files[index]!, code, ...report };
      await record(false);
    },
    async finish() {
      const done = studies.filter(({ code }) => code !== null).length;
      const seconds = await record(done === studies.length);
      io.stdout.write(`\n${summary(studies, seconds, widthOf(io.stdout))}`);
      const sum = (key: 'designs' | 'feasible' | 'front') =>
        studies.reduce((total, study) => total + (study[key] ?? 0), 0);
      const well: readonly string[] = ['done', 'already done'];
      const bad = studies.find(({ status }) => !well.includes(status));
      const totals = { designs: sum('designs'), feasible: sum('feasible'), front: sum('front') };
      const status = bad === undefined || bad.status === 'to come' ? 'done' : bad.status;
      return { status, ...totals, seconds, folder: shown, studies };
    },
  };
}

function summary(studies: readonly BatchStudy[], seconds: number, width: number): string {
  const number = (n: number | null) => (n === null ? '-' : grouped(n));
  const rows = studies.map(({ file, status, designs, feasible, front, seconds, folder }) => [
    file,
    status,
    number(designs),
    number(feasible),
    number(front),
    seconds === null ? '-' : formatSeconds(seconds),
    folder ?? '-',
  ]);
  const heading = ['study', 'status', 'designs', 'feasible', 'front', 'time', 'result'];
  const well = studies.filter(({ code }) => code === 0).length;
  return `${studies.length} studies in ${formatSeconds(seconds)}, ${well} without trouble:\n${listing([heading, ...rows], width)}`;
}
