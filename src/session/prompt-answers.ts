import { createInterface } from 'node:readline/promises';
import { type Answers, DEFAULT_ANSWERS, newStudyText, QUESTIONS } from '../study/new-study.ts';
import { readStudy } from '../study/read-study.ts';
import type { Input, Io } from './io.ts';

/**
 * Asks what a new study needs to know; an empty answer takes the default. An answer that no study could hold is asked for
 * again with what is wrong with it. Null when the user ends the input or wants to stop.
 */
export async function promptAnswers(
  input: Input,
  io: Pick<Io, 'stdout' | 'signal'>,
): Promise<Answers | null> {
  const lines = createInterface({ input, output: io.stdout });
  // a question that is open when the input ends is never answered
  const ended = new Promise<null>((resolve) => lines.once('close', () => resolve(null)));
  let answers: Answers = DEFAULT_ANSWERS;
  try {
    for (const { key, question } of QUESTIONS) {
      for (;;) {
        const answer = lines.question(`${question} [${answers[key]}] `, { signal: io.signal });
        const typed = await Promise.race([answer, ended]);
        if (typed === null) return null;
        const tried = typed.trim() === '' ? answers : { ...answers, [key]: typed.trim() };
        const reading = readStudy(newStudyText(tried, null));
        if (!('problems' in reading)) {
          answers = tried;
          break;
        }
        const [{ found, wanted }] = reading.problems as [(typeof reading.problems)[number]];
        io.stdout.write(`  found ${found}; wanted ${wanted}\n`);
      }
    }
    return answers;
  } catch (error) {
    if (io.signal.aborted || (error as Error).name === 'AbortError') return null;
    throw error;
  } finally {
    lines.close();
  }
}
