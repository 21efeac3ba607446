import { type FileHandle, open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { type DirectWriter, openDirectWriter } from './direct-writer.ts';
import { asFolderError } from './folder-error.ts';
import type { FIGURES, MotionFile, PARTS_FOLDER, ResultFile, WarmFile } from './result-files.ts';
import { temporaryPath } from './result-files.ts';

/** A file that appears under its name whole, on disk, or not at all. */
export interface AtomicFile {
  /** Appends; await it before the next. Text is written as UTF-8. */
  write(data: string | Uint8Array): Promise<void>;
  /** Puts the file in place, over an earlier one of its name. */
  commit(): Promise<void>;
  /** Removes what was written. Does nothing after `commit`. */
  abandon(): Promise<void>;
}

/** A file in one of the folders of a result. */
type Inner = `${typeof PARTS_FOLDER}/${string}.arrow` | `${typeof FIGURES}/${string}.svg`;

/** Name of a file of fitted inputs, in the user's own folder. */
type Patch = `${string}.yaml`;

/** A picture beside the figure that it is of. */
type Picture = `${string}.png`;

/** Likewise of a live page. */
type LivePage = `${string}.html`;

type FileName = ResultFile | MotionFile | WarmFile | Inner | Patch | Picture | LivePage;

/**
 * Bytes after which what was written is put on disk while more is on its way. All of a large file at once keeps the end of
 * a run waiting: half a second for the gigabyte of a million designs.
 */
const SETTLED_AFTER = 64 * 2 ** 20;

/**
 * `name` is relative to the folder. Every method throws FolderError when the file system refuses.
 * @param large whether it will have hundreds of megabytes
 */
export async function openAtomicFile(folder: string, name: FileName, large = false): Promise<AtomicFile> {
  const target = join(folder, name);
  const temporary = temporaryPath(target);
  // wx: never through a link that somebody left under this name.
  const handle = await worded(folder, () => open(temporary, 'wx'));
  const direct: DirectWriter | null = large ? await openDirectWriter(temporary, handle) : null;
  let done = false;
  let unsettled = 0;
  let settling: Promise<void> = Promise.resolve();
  return {
    write: (data) =>
      worded(folder, async () => {
        if (direct) return direct.write(typeof data === 'string' ? Buffer.from(data) : data);
        await handle.writeFile(data);
        unsettled += data.length;
        if (unsettled < SETTLED_AFTER) return;
        unsettled = 0;
        await settling;
        settling = handle.datasync();
        // it is awaited when its turn comes; until then a rejection is nobody's yet
        settling.catch(() => {});
      }),
    commit: () =>
      worded(folder, async () => {
        await settling;
        await direct?.end();
        await direct?.close();
        await handle.sync();
        await handle.close();
        await rename(temporary, target);
        done = true;
        await syncFolder(dirname(target));
      }),
    async abandon() {
      if (done) return;
      done = true;
      await settling.catch(() => undefined);
      await direct?.close();
      await closeQuietly(handle);
      await rm(temporary, { force: true }).catch(() => undefined);
    },
  };
}

export async function writeAtomically(
  folder: string,
  name: FileName,
  ...pieces: readonly (string | Uint8Array)[]
): Promise<void> {
  const file = await openAtomicFile(folder, name);
  try {
    for (const piece of pieces) await file.write(piece);
    await file.commit();
  } finally {
    await file.abandon();
  }
}

/** A rename is on disk only when its folder is. Windows cannot open a folder. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** The error that led here matters more than that of closing. */
async function closeQuietly(handle: FileHandle): Promise<void> {
  await handle.close().catch(() => undefined);
}

async function worded<T>(folder: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw asFolderError(error, folder);
  }
}
