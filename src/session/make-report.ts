import { compileLate } from '../run/late-compiling.ts';
import { FolderError } from '../store/folder-error.ts';
import type { RunFacts } from '../store/run-record.ts';
import { writeReport } from '../store/write-report.ts';
import { composeReport, type FinishedRun } from './compose-report.ts';
import type { ReportFault } from './report-fault.ts';

/**
 * Writes the report of a finished result; null when it stands. Whatever goes wrong is printed and not thrown: the tables are
 * finished, and the report can be made again.
 */
export async function makeReport(
  folder: string,
  run: Omit<FinishedRun, 'provenance'>,
  facts: RunFacts,
  seconds: number,
): Promise<ReportFault | null> {
  const asBefore = compileLate();
  try {
    // charts take a while to load, and a run that is broken off before its tables needs none
    const { buildReport } = await import('../report/build-report.ts');
    const report = composeReport({ ...run, provenance: { ...facts, seconds } });
    await writeReport(folder, await buildReport(report));
    return null;
  } catch (error) {
    if (error instanceof FolderError) return { words: error.message, isOurs: false };
    return { words: String(error).split('\n')[0]!, isOurs: true };
  } finally {
    asBefore();
  }
}
