import { open, rm } from 'node:fs/promises';
import { UsageError } from '../errors.ts';

const WHY: Readonly<Record<string, string>> = {
  EEXIST: 'is there already and stays as it is: name another file',
  ENOENT: 'cannot be written: there is no such folder',
  ENOTDIR: 'cannot be written: part of the path is a file',
  EACCES: 'cannot be written: no permission',
  EROFS: 'cannot be written: the disk is read-only',
  ENOSPC: 'cannot be written: the disk is full',
};

/** Writes a file that is not there yet, whole and on disk. Throws UsageError where there is one, or none can be written. */
export async function writeNewFile(path: string, text: string, shown: string): Promise<void> {
  try {
    const file = await open(path, 'wx');
    try {
      await file.writeFile(text);
      await file.sync();
    } catch (error) {
      // it would stand in the way of the next attempt
      await rm(path, { force: true });
      throw error;
    } finally {
      await file.close();
    }
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw new UsageError(`${shown} ${WHY[code ?? ''] ?? message}`, { cause: error });
  }
}
