import { readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import { createPlan } from '../plan/create-plan.ts';
import { FolderError } from '../store/folder-error.ts';
import { FIGURES, PARTS_FOLDER } from '../store/result-files.ts';
import { type RunSummary, readRunSummary } from '../store/run-summary.ts';
import { readFormerStudy } from '../study/former-words.ts';

export interface ListedResult {
  /** As the user would write it. */
  readonly folder: string;
  readonly summary: RunSummary;
  /** Designs that a run of the whole study evaluates, or the most that there may be; null where that is not known. */
  readonly designs: number | null;
}

/** Results lie below the folder that is named, or below folders of several studies. */
const DEEPEST = 3;
/** More folders than this are no collection of results. */
const MOST_FOLDERS = 10_000;

/** The results in a folder and below it, the latest first. Throws UsageError where there is no such folder. */
export async function listResults(
  place: string,
  cwd: string,
): Promise<{ results: ListedResult[]; unread: string[] }> {
  const results: ListedResult[] = [];
  const unread: string[] = [];
  let left = MOST_FOLDERS;
  const visit = async (shown: string, depth: number): Promise<void> => {
    if (left-- <= 0) return;
    const path = resolve(cwd, shown);
    let summary: RunSummary | null = null;
    try {
      summary = await readRunSummary(path);
    } catch (error) {
      if (depth === 0 && !(error instanceof FolderError && error.code === 'NEWER_FORMAT'))
        throw asUsage(error, shown);
      unread.push(error instanceof Error ? error.message : String(error));
      return;
    }
    if (summary !== null) {
      results.push({ folder: shown, summary, designs: summary.counts?.designs ?? plannedDesigns(summary) });
      return;
    }
    if (depth === DEEPEST) return;
    const entries = await readdir(path, { withFileTypes: true }).catch((error) => {
      if (depth === 0) throw asUsage(error, shown);
      return [];
    });
    for (const entry of entries) {
      const { name } = entry;
      const isOurs =
        name === PARTS_FOLDER || name === FIGURES || name === 'node_modules' || name.startsWith('.');
      if (entry.isDirectory() && !isOurs) await visit(join(shown, name), depth + 1);
    }
  };
  await visit(place, 0);
  results.sort((a, b) => (b.summary.started ?? '').localeCompare(a.summary.started ?? ''));
  return { results, unread };
}

function plannedDesigns({ text }: RunSummary): number | null {
  if (text === null) return null;
  const reading = readFormerStudy(text, { allowHuge: true });
  return 'study' in reading ? createPlan(reading.study).atMost : null;
}

function asUsage(error: unknown, place: string): UsageError {
  const { code, message } = error as NodeJS.ErrnoException;
  return new UsageError(code === 'ENOENT' ? `there is no folder ${place}` : `${place}: ${message}`, {
    cause: error,
  });
}
