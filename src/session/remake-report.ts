import type { Study } from '../model/study.ts';
import type { Progress } from '../run/progress.ts';
import { createTimeLimit } from '../run/time-limit.ts';
import { createLocalWorkforce } from '../run/workforce.ts';
import { reopenResult, stampOf } from '../store/result-folder.ts';
import type { RunFacts } from '../store/run-record.ts';
import { describeOutcome } from '../words/describe-outcome.ts';
import { evaluateAll } from './evaluate-all.ts';
import type { Io } from './io.ts';
import { makeReport } from './make-report.ts';
import { frontRows } from './refront.ts';
import type { ReportFault } from './report-fault.ts';
import { frontRecord } from './search-record.ts';

export interface ReportRequest {
  readonly folder: string;
  readonly study: Study;
  readonly facts: RunFacts;
  readonly progress: (total: number) => Progress;
  /** Hears of each part that cannot be used, before its designs are computed again. */
  readonly onDamage: (part: string, what: string, designs: number) => void;
}

/**
 * The report of a finished result that has none: its rows are read again, for a report is about all of them. The tables
 * stay as they are. Null when the signal aborts.
 */
export async function remakeReport(
  { folder, study, facts, progress, onDamage }: ReportRequest,
  io: Io,
): Promise<{ readonly fault: ReportFault | null } | null> {
  const began = io.now();
  const { parts, close } = await reopenResult(folder, study, facts, onDamage);
  try {
    const stamp = stampOf(study.hash, facts.origin);
    const workforce = createLocalWorkforce({
      task: study,
      stamp,
      threads: 1,
      timeLimit: createTimeLimit(io.now),
    });
    const { interrupted, designs, front, outcome, survey, whyEmpty } = await evaluateAll(
      study,
      parts,
      { workforce, share: null, progress },
      io,
    );
    if (interrupted) return null;
    const ids = study.objectives.length === 0 && designs === 1 ? [0] : front;
    const rows = await frontRows({ folder, stamp, parts: parts.list(), study, judged: study }, ids);
    const search = describeOutcome(study, outcome, rows, frontRecord(study, rows));
    const run = { study, front: rows, survey, whyEmpty, search };
    return { fault: await makeReport(folder, run, facts, (io.now() - began) / 1000) };
  } finally {
    await close();
  }
}
