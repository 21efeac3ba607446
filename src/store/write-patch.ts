import { open } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { UsageError } from '../errors.ts';
import { writeAtomically } from './atomic-file.ts';

/**
 * Writes a file of fitted inputs, whole or not at all, over an earlier one; never over another file. Throws UsageError
 * when the name is another file's or no `.yaml`, FolderError when the file system refuses.
 */
export async function writePatch(path: string, text: string): Promise<void> {
  const name = basename(path);
  if (!isPatchName(name)) throw new UsageError(`${name}: fitted inputs are kept in a file named *.yaml`);
  const mark = text.slice(0, text.indexOf('\n') + 1);
  const there = await startOf(path, Buffer.byteLength(mark));
  if (there !== null && there !== mark) {
    throw new UsageError(`${name} is there and holds something else than fitted inputs: choose another name`);
  }
  await writeAtomically(dirname(path), name, text);
}

function isPatchName(name: string): name is `${string}.yaml` {
  return /^[^.].*\.yaml$/.test(name);
}

/** The first bytes of a file; null where there is none. */
async function startOf(path: string, length: number): Promise<string | null> {
  const handle = await open(path, 'r').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw new UsageError(`cannot write ${path}: something else is there`, { cause: error });
  });
  if (handle === null) return null;
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(length), 0, length, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await handle.close();
  }
}
