import { loadStudy } from '../session/load-study.ts';
import { STDIN } from '../session/read-study-file.ts';
import { outside } from './inside/insides.ts';
import { createWorld, throwProblems, worded } from './inside/world.ts';
import type { Study } from './types.ts';

/**
 * Reads a study: from a file, or from a text. Throws an EddyliftError with every problem of it, each with its line.
 *
 * @example
 * const study = await readStudy('studies/metal-and-turns.yaml');
 * const other = await readStudy({ text: 'study: …' });
 */
export async function readStudy(source: string | { readonly text: string }): Promise<Study> {
  const isText = typeof source !== 'string';
  const world = createWorld(isText ? { stdin: source.text } : {});
  const study = await worded(() => loadStudy(isText ? STDIN : source, true, world));
  if (!study) throwProblems(world);
  return outside(study, world.document.problems);
}
