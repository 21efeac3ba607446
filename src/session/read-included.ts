import { realpath } from 'node:fs/promises';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import {
  fittedFile,
  type Included,
  includeFitted,
  includeStock,
  type NamedFile,
  stockFile,
} from '../study/include-files.ts';
import type { ReadingIo } from './io.ts';
import { readStudyFile } from './read-study-file.ts';
import { reportProblems } from './report-problems.ts';

/** What a study may name a file for. */
interface Inclusion {
  find(source: Uint8Array): NamedFile | null;
  include(named: NamedFile, file: Uint8Array): Included;
  readonly code: string;
  readonly example: string;
  readonly wanted: string;
}

const INCLUSIONS: readonly Inclusion[] = [
  {
    find: fittedFile,
    include: includeFitted,
    code: 'calibrated-file',
    example: 'calibrated.yaml',
    wanted: 'one that `compare --out` wrote',
  },
  {
    find: stockFile,
    include: includeStock,
    code: 'stock-file',
    example: 'rack.yaml',
    wanted: 'a stock file, which lists what is in the store',
  },
];

/**
 * The bytes of a study, with its fitted inputs (`calibrated`) and its stock in the place of their files' names; null when
 * there is something wrong with such a file, which then stands on stderr. The files must lie in the study's folder or below
 * it, links followed.
 */
export async function withIncluded(
  file: string,
  source: Uint8Array,
  io: ReadingIo,
): Promise<Uint8Array | null> {
  let whole: Uint8Array | null = source;
  for (const inclusion of INCLUSIONS) {
    if (whole !== null) whole = await withFile(file, whole, inclusion, io);
  }
  return whole;
}

async function withFile(
  file: string,
  source: Uint8Array,
  { find, include, code, example, wanted: rightFile }: Inclusion,
  io: ReadingIo,
): Promise<Uint8Array | null> {
  const named = find(source);
  if (!named) return source;
  const { name, offset, length } = named;
  const refuse = (found: string, wanted: string): null => {
    const problem = { code, found, wanted, offset, length };
    reportProblems(io, file, source, [problem]);
    return null;
  };
  const folder = dirname(resolve(io.cwd, file));
  const path = resolve(folder, name);
  if (isAbsolute(name) || isOutside(folder, path) || !(await isBelow(folder, path))) {
    return refuse('a file outside the folder of the study', `a file in it, such as ${example}`);
  }
  let content: Uint8Array;
  try {
    content = await readStudyFile(path, io);
  } catch (error) {
    const { message } = error as Error;
    return refuse(`a file that cannot be read (${message.split(': ').at(-1)})`, rightFile);
  }
  const whole = include(named, content);
  if ('text' in whole) return new TextEncoder().encode(whole.text);
  reportProblems(io, name, content, whole.problems);
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
