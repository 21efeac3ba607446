import { lstat, mkdir, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { FolderError } from './folder-error.ts';

/**
 * Makes a folder and those above it, one by one: `mkdir` with `recursive` never comes back from a place where nothing
 * can be made, such as /proc (Node 20).
 */
export async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST' && (await stat(path)).isDirectory()) return;
    if (code !== 'ENOENT' || dirname(path) === path) throw error;
    await makeFolder(dirname(path));
    await mkdir(path);
  }
}

/** Makes a folder of a result where it is missing. */
export async function makeOwnFolder(result: string, name: string): Promise<void> {
  await refuseLink(result, name);
  await makeFolder(join(result, name));
}

/**
 * A folder of a result that is a link leads to files of somebody else, which a run would remove or write over: throws
 * FolderError.
 */
export async function refuseLink(result: string, name: string): Promise<void> {
  const path = join(result, name);
  const found = await lstat(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return null;
    throw error;
  });
  if (!found?.isSymbolicLink()) return;
  throw new FolderError(
    'LINKED',
    result,
    `${path} is a link, and a run writes only into folders of its own result; remove the link or choose another folder`,
  );
}
