import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { listParts } from './parts.ts';
import { RESULT_FILES } from './result-files.ts';
import { inspectFolder } from './result-folder.ts';
import type { RunCounts, RunRecord } from './run-record.ts';

/** What a result folder holds of itself, whatever version wrote it. */
export interface RunSummary {
  readonly title: string;
  /** The study as run; null where the record does not hold it. */
  readonly text: string | null;
  readonly eddylift: string;
  /** ISO 8601; null where the record does not hold it. */
  readonly started: string | null;
  readonly finished: string | null;
  readonly seconds: number | null;
  readonly counts: RunCounts | null;
  /** Designs that are on disk. */
  readonly kept: number;
}

/** Null where there is no result. Throws FolderError where the folder cannot be read or is of a newer version. */
export async function readRunSummary(folder: string): Promise<RunSummary | null> {
  const state = await inspectFolder(folder, 'read the result in');
  if (state.kind !== 'result') return null;
  const record = JSON.parse(await readFile(join(folder, RESULT_FILES.run), 'utf8')) as Partial<RunRecord>;
  const parts = await listParts(folder).catch(() => []);
  const text = (value: unknown) => (typeof value === 'string' ? value : null);
  const number = (value: unknown) => (typeof value === 'number' && Number.isFinite(value) ? value : null);
  return {
    title: state.title,
    text: state.text,
    eddylift: text(record.eddylift) ?? 'unknown',
    started: text(record.started),
    finished: text(record.finished),
    seconds: number(record.seconds),
    counts: countsOf(record.counts),
    kept: parts.reduce((sum, { count }) => sum + count, 0),
  };
}

function countsOf(counts: unknown): RunCounts | null {
  const { designs, feasible, front, statuses } = (counts ?? {}) as Partial<Record<keyof RunCounts, unknown>>;
  const areNumbers = [designs, feasible, front].every((each) => typeof each === 'number');
  return areNumbers && typeof statuses === 'object' && statuses !== null ? (counts as RunCounts) : null;
}
