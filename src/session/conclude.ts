import { join } from 'node:path';
import { CAUTIONS_REMINDER } from '../model/cautions/judge.ts';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { SearchOutcome } from '../plan/plan.ts';
import { compileLate } from '../run/late-compiling.ts';
import type { Progress } from '../run/progress.ts';
import { writeDescents } from '../store/descents-csv.ts';
import type { PartName } from '../store/part-name.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { finishResult } from '../store/result-folder.ts';
import type { FrontRecord, RunCounts, RunFacts } from '../store/run-record.ts';
import { writePlateHeat } from '../store/write-plate-heat.ts';
import type { WrittenTables } from '../store/write-tables.ts';
import { inCurrency } from '../text/currency.ts';
import { wrap } from '../text/listing.ts';
import { describeCounts } from '../words/describe-counts.ts';
import { describeFindings } from '../words/describe-findings.ts';
import { describeOutcome } from '../words/describe-outcome.ts';
import { describeSensitivities } from '../words/describe-sensitivities.ts';
import { designWords } from '../words/design-words.ts';
import { createSensitivityDescriber, type SensitivityDescriber } from '../words/sensitivity-words.ts';
import type { Evaluated } from './evaluate-all.ts';
import type { Io } from './io.ts';
import { makeReport } from './make-report.ts';
import { plateHeatOf } from './plate-heat.ts';
import { frontRows } from './refront.ts';
import type { ReportFault } from './report-fault.ts';
import { frontRecord, searchRecord, startRowsOf } from './search-record.ts';
import { tabulateAll } from './tabulate-all.ts';

/** All rows of a study, on disk, and what is to be made of them. */
export interface ConclusionRequest {
  /** The result folder. */
  readonly folder: string;
  readonly study: Study;
  readonly facts: RunFacts;
  /** The mark of the parts. */
  readonly stamp: string;
  readonly parts: readonly PartName[];
  readonly evaluated: Pick<Evaluated, 'designs' | 'front' | 'outcome' | 'survey' | 'whyEmpty'>;
  readonly csv: boolean;
  readonly threads: number;
  readonly progress: (total: number) => Progress;
}

/** A finished result. */
export interface Conclusion {
  readonly counts: RunCounts;
  readonly front: WrittenTables['front'];
  /** The only design of a study without objectives; null of any other. */
  readonly only: TableRows | null;
  readonly outcome: SearchOutcome | null;
  readonly quality: FrontRecord | null;
  readonly whyEmpty: string;
  /** From the start of the run. */
  readonly seconds: number;
  /** Whether `designs.csv` was written. */
  readonly csv: boolean;
  /** Has computed the designs that the report shows. */
  readonly sensitivityOf: SensitivityDescriber;
  /** Why there is no report; null where it stands. */
  readonly reportFault: ReportFault | null;
}

/** Writes the tables, marks the result as finished and writes the report; null when the signal aborts before the tables stand. */
export async function conclude(request: ConclusionRequest, io: Io): Promise<Conclusion | null> {
  const { folder, study, stamp, parts, evaluated, csv, threads, progress } = request;
  const { designs, front, outcome } = evaluated;
  const startRows = startRowsOf(outcome);
  // charts take a while to load: that goes on beside the threads; whoever draws them hears what is wrong
  import('../report/build-report.ts').catch(() => {});
  const written = await tabulateAll(
    { folder, stamp, parts, study, designs, front, startRows, csv, threads, progress },
    io.signal,
  );
  if (!written) return null;
  // no thread is left that runs for long
  const asBefore = compileLate();
  try {
    return await describeTables(request, written, io);
  } finally {
    asBefore();
  }
}

/** What comes after the tables. */
async function describeTables(
  { folder, study, facts, stamp, parts, evaluated, csv }: ConclusionRequest,
  written: WrittenTables,
  io: Io,
): Promise<Conclusion> {
  const { outcome, survey, whyEmpty } = evaluated;
  await writePlateHeat(folder, study, plateHeatOf(study, written.front));
  const quality = frontRecord(study, written.front);
  const search = describeOutcome(study, outcome, written.front, quality);
  const ended = io.now();
  const seconds = (ended - Date.parse(facts.started)) / 1000;
  if (outcome?.kind === 'nelder_mead') await writeDescents(folder, study, outcome.starts);
  await finishResult(folder, study, facts, written.counts, {
    finished: new Date(ended).toISOString(),
    seconds,
    search: searchRecord(outcome),
    front: quality,
  });
  // last, so that whatever is wrong with it leaves finished tables
  const { counts, front: rows } = written;
  const only = study.objectives.length === 0 && evaluated.designs === 1;
  const shown = only ? await frontRows({ folder, stamp, parts, study, judged: study }, [0]) : rows;
  const sensitivityOf = remembered(createSensitivityDescriber(study));
  const run = { study, front: shown, survey, whyEmpty, search, sensitivityOf };
  const reportFault = await makeReport(folder, run, facts, seconds);
  return {
    counts,
    front: rows,
    only: only ? shown : null,
    outcome,
    quality,
    whyEmpty,
    seconds,
    csv,
    sensitivityOf,
    reportFault,
  };
}

/** Report and terminal look at the same few designs. */
function remembered(describe: SensitivityDescriber): SensitivityDescriber {
  const known = new Map<string, ReturnType<SensitivityDescriber>>();
  return (values) => {
    const key = values.join(' ');
    const found = known.get(key) ?? describe(values);
    known.set(key, found);
    return found;
  };
}

/** A study of one rig. */
function describeOnly(study: Study, only: TableRows, shown: string, width: number): string[] {
  return [
    ...wrap(designWords(study, only, 0), width),
    '',
    ...wrap(`\`eddylift card ${shown}\` prints its bench card, with all cautions.`, width),
    CAUTIONS_REMINDER,
  ];
}

/** What came of a study, for the terminal; `shown` is the result folder as it is shown. */
export function describeConclusion(
  study: Study,
  conclusion: Conclusion,
  shown: string,
  width: number,
): string {
  const { counts, front, only, outcome, quality, whyEmpty, seconds, csv, sensitivityOf, reportFault } =
    conclusion;
  const search = describeOutcome(study, outcome, front, quality).map((line) =>
    wrap(line, width).join('\n  '),
  );
  const lines = [
    '',
    describeCounts(counts, seconds, study),
    '',
    ...(only === null
      ? [front.count > 0 ? describeFindings(study, front, width) : whyEmpty]
      : describeOnly(study, only, shown, width)),
    ...(search.length > 0 ? ['', ...search] : []),
    ...describeSensitivities(study, only ?? front, sensitivityOf, width),
    ...(csv ? [] : ['', 'More than a million rows: designs.csv is written only with --csv.']),
    '',
    ...(reportFault === null ? [`Report: ${join(shown, RESULT_FILES.report)}`] : []),
    `Results: ${shown}`,
  ];
  return inCurrency(lines.join('\n'), study);
}
