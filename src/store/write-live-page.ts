import { open } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { UsageError } from '../errors.ts';
import { writeAtomically } from './atomic-file.ts';

/** Stands in the head of every live page. */
const MARK = '<title>Live rig: ';
const HEAD_BYTES = 2048;

/**
 * Writes a live page, whole or not at all, over an earlier one; never over another file. Throws UsageError when the name is
 * another file's or no `.html`, FolderError when the file system refuses.
 */
export async function writeLivePage(path: string, page: string): Promise<void> {
  const name = basename(path);
  if (!isPageName(name)) throw new UsageError(`${name}: a live page is kept in a file named *.html`);
  const head = await headOf(path);
  if (head !== null && !head.includes(MARK)) {
    throw new UsageError(`${name} is there and is no live page: choose another name`);
  }
  await writeAtomically(dirname(path), name, page);
}

function isPageName(name: string): name is `${string}.html` {
  return /^[^.].*\.html$/.test(name);
}

/** Null where there is no such file. */
async function headOf(path: string): Promise<string | null> {
  const handle = await open(path, 'r').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw new UsageError(`cannot write ${path}: something else is there`, { cause: error });
  });
  if (handle === null) return null;
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } catch (error) {
    throw new UsageError(`cannot write ${path}: something else is there`, { cause: error });
  } finally {
    await handle.close();
  }
}
