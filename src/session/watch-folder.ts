import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { formatPartName, type PartName } from '../store/part-name.ts';
import { PARTS_FOLDER } from '../store/result-files.ts';
import { grouped } from '../text/grouped.ts';
import { count } from '../words/describe-plan.ts';

/** Sees whether what a run has finished is still there. */
export interface FolderWatch {
  /** Aborts as soon as something is seen to be gone. */
  readonly signal: AbortSignal;
  /** Looks now: what is gone, in words; null when all is there. */
  look(): Promise<string | null>;
  stop(): void;
}

/** How often a run looks, ms. */
const EVERY_MS = 1000;

/** Watches a result folder and the parts in it; `parts`: those that should be there. */
export function watchFolder(folder: string, parts: () => readonly PartName[]): FolderWatch {
  const gone = new AbortController();
  let looking = false;
  const look = async () => {
    const missing = await whatIsGone(folder, parts);
    if (missing !== null) gone.abort();
    return missing;
  };
  const timer = setInterval(() => {
    if (looking) return;
    looking = true;
    look().finally(() => {
      looking = false;
    });
  }, EVERY_MS);
  timer.unref();
  return { signal: gone.signal, look, stop: () => clearInterval(timer) };
}

async function whatIsGone(folder: string, parts: () => readonly PartName[]): Promise<string | null> {
  const due = [...parts()];
  const finished = count(sum(due), 'finished design');
  if (!(await isThere(folder))) return `the folder is gone, removed or renamed, and with it ${finished}`;
  const place = join(folder, PARTS_FOLDER);
  if (!(await isThere(place))) return `its folder ${PARTS_FOLDER}/ is gone, and with it ${finished}`;
  const names = await readdir(place).catch(() => null);
  if (names === null) return null;
  const there = new Set(names);
  // the run itself removes what it finds damaged, and takes it off its list before
  const listed = new Set(parts());
  const lost = due.filter((part) => listed.has(part) && !there.has(formatPartName(part)));
  if (lost.length === 0) return null;
  return `${lost.length} of ${count(due.length, 'file')} in ${PARTS_FOLDER}/ are gone, and with them ${grouped(sum(lost))} of ${finished}`;
}

function sum(parts: readonly PartName[]): number {
  return parts.reduce((designs, part) => designs + part.count, 0);
}

/** A folder that cannot be looked at for another reason counts as there: whoever writes to it will report why not. */
async function isThere(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return code !== 'ENOENT' && code !== 'ENOTDIR';
  }
}
