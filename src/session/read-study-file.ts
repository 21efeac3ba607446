import { open, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import type { Io } from './io.ts';
import { readStdin } from './read-stdin.ts';

/** More than any study may hold, so that whoever reads the bytes can report it. */
const MOST_BYTES = 2 ** 21;

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'part of the path is a file, not a folder',
  EISDIR: 'that is a folder; name the study file in it',
  EACCES: 'no permission to read it',
  EPERM: 'no permission to read it',
  ELOOP: 'the path loops through links',
  ENAMETOOLONG: 'the path is too long',
  ENXIO: 'it cannot be read as a file',
  EIO: 'the disk reports an error',
};

const NO_FILE = 'it is a pipe or a device; save the study as a file, or write - and pipe it to stdin';

/** In place of a file's name: what comes through stdin. */
export const STDIN = '-';

/**
 * The bytes of a study file, or of stdin for `-`, at most 2 MB of them unless `most` is given. Throws UsageError, in
 * one line, when it cannot be read.
 */
export async function readStudyFile(
  path: string,
  { cwd, stdin, signal }: Pick<Io, 'cwd' | 'stdin'> & Partial<Pick<Io, 'signal'>>,
  most = MOST_BYTES,
): Promise<Uint8Array> {
  if (path === STDIN) return readStdin(stdin, most, signal);
  try {
    const found = await stat(resolve(cwd, path));
    // whoever waits for a pipe's other end, or reads a device without end, cannot be stopped
    if (!found.isFile() && !found.isDirectory()) throw new UsageError(`cannot read ${path}: ${NO_FILE}`);
    const file = await open(resolve(cwd, path), 'r');
    try {
      const room = Math.min(most, Math.max(found.size + 1, Math.min(most, MOST_BYTES)));
      const buffer = new Uint8Array(room);
      let length = 0;
      while (length < room) {
        const { bytesRead } = await file.read(buffer, length, room - length);
        if (bytesRead === 0) break;
        length += bytesRead;
      }
      return buffer.slice(0, length);
    } finally {
      await file.close();
    }
  } catch (error) {
    if (error instanceof UsageError) throw error;
    const { code, message } = error as NodeJS.ErrnoException;
    throw new UsageError(`cannot read ${path}: ${WHY[code ?? ''] ?? message}`, { cause: error });
  }
}
