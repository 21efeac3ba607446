import type { ReadReply } from '../src/run/study-reader.ts';
import { readStudy } from '../src/study/read-study.ts';

/** The text of a study in, the study out; null where it is none. */
export default function answer(text: string): ReadReply {
  const reading = readStudy(text, { allowHuge: true });
  return 'problems' in reading ? null : reading.study;
}
