import { createHash } from 'node:crypto';
import { watch } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import type { Io } from './io.ts';
import { readStudyFile } from './read-study-file.ts';

/** An editor writes in several steps, ms. */
const SETTLED = 150;

/** Calls `act` now and each time the file's content has changed, one after the other, until the signal aborts. */
export async function watchStudy(file: string, io: Io, act: () => Promise<void>): Promise<void> {
  const path = resolve(io.cwd, file);
  let changed: () => void = () => {};
  // the folder: many editors put a new file in the place of the old one
  const watcher = watch(dirname(path), { signal: io.signal }, (_, name) => {
    if (name === null || name === basename(path)) changed();
  });
  watcher.on('error', () => changed());
  io.signal.addEventListener('abort', () => changed(), { once: true });
  try {
    let last: string | null = null;
    while (!io.signal.aborted) {
      const next = new Promise<void>((done) => {
        changed = done;
      });
      const digest = await digestOf(file, io.cwd);
      if (digest === null || digest === last) {
        await next;
        continue;
      }
      // a file that is being written may be empty or half there: what reads the same twice is what was saved
      if (last !== null) {
        await new Promise((done) => setTimeout(done, SETTLED));
        if (io.signal.aborted || (await digestOf(file, io.cwd)) !== digest) continue;
      }
      last = digest;
      await act();
    }
  } finally {
    watcher.close();
  }
}

/** Null while there is no file: between two steps of an editor. */
async function digestOf(file: string, cwd: string): Promise<string | null> {
  const bytes = await readStudyFile(file, { cwd }).catch(() => null);
  return bytes && createHash('sha256').update(bytes).digest('hex');
}
