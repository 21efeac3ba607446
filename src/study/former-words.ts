import { RENAMED } from '../model/renamed.ts';
import { type ReadOptions, readStudy, type StudyResult } from './read-study.ts';

/** Words that a study may have from before; more are not of an earlier version. */
const MOST_ROUNDS = 50;

/**
 * Reads the study of a result, which an earlier version may have run: what is refused under its former name is read under
 * today's. A study file that is to be run again is not read so, and is refused with the new names.
 */
export function readFormerStudy(source: Uint8Array | string, options: ReadOptions = {}): StudyResult {
  const first = readStudy(source, options);
  if (!('problems' in first)) return first;
  let text =
    typeof source === 'string' ? source : new TextDecoder('utf-8', { ignoreBOM: true }).decode(source);
  let { problems } = first;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const renamed = problems.reduceRight((now, { offset, length }) => {
      const word = now.slice(offset, offset + length);
      const today = word.replace(/\w+/g, (name) => RENAMED.get(name) ?? name);
      return now.slice(0, offset) + today + now.slice(offset + length);
    }, text);
    if (renamed === text) break;
    text = renamed;
    const reading = readStudy(text, options);
    if (!('problems' in reading)) return reading;
    problems = reading.problems;
  }
  // as the file has them
  return first;
}
