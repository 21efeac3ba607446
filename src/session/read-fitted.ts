import { realpath } from 'node:fs/promises';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { drawProblems } from '../study/draw-problems.ts';
import { fittedFile, includeFitted } from '../study/include-fitted.ts';
import type { ReadingIo } from './io.ts';
import { readStudyFile } from './read-study-file.ts';

/**
 * The bytes of a study, with the inputs of its file `calibrated` in their place; null when there is something wrong
 * with that file, which then stands on stderr. The file must lie in the study's folder or below it, links followed.
 */
export async function withFitted(
  file: string,
  source: Uint8Array,
  io: ReadingIo,
): Promise<Uint8Array | null> {
  const named = fittedFile(source);
  if (!named) return source;
  const { name, offset, length } = named;
  const refuse = (found: string, wanted: string): null => {
    const problem = { code: 'calibrated-file', found, wanted, offset, length };
    io.stderr.write(`${drawProblems(file, source, [problem])}\n`);
    return null;
  };
  const folder = dirname(resolve(io.cwd, file));
  const path = resolve(folder, name);
  if (isAbsolute(name) || isOutside(folder, path) || !(await isBelow(folder, path))) {
    return refuse('a file outside the folder of the study', 'a file in it, such as calibrated.yaml');
  }
  let fitted: Uint8Array;
  try {
    fitted = await readStudyFile(path, io.cwd);
  } catch (error) {
    const { message } = error as Error;
    return refuse(
      `a file that cannot be read (${message.split(': ').at(-1)})`,
      'one that `compare --out` wrote',
    );
  }
  const whole = includeFitted(named, fitted);
  if ('text' in whole) return new TextEncoder().encode(whole.text);
  io.stderr.write(`${drawProblems(name, fitted, whole.problems)}\n`);
  return null;
}

function isOutside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way === '' || way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way);
}

/** A file that is not there is found missing when it is read. */
async function isBelow(folder: string, path: string): Promise<boolean> {
  try {
    return !isOutside(await realpath(folder), await realpath(path));
  } catch {
    return true;
  }
}
