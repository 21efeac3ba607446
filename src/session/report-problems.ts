import type { Problem, UsageError } from '../errors.ts';
import { drawProblems, lineAt, sourceText } from '../study/draw-problems.ts';
import type { ReadingIo } from './io.ts';

/** Draws the problems of a file, or of an option's text, on stderr, and keeps them for the document. */
export function reportProblems(
  io: Pick<ReadingIo, 'stderr' | 'document'>,
  file: string,
  source: Uint8Array | string,
  problems: readonly Problem[],
  severity: 'error' | 'warning' = 'error',
): void {
  const text = sourceText(source);
  const lead = severity === 'error' ? 'found' : 'warning:';
  io.stderr.write(`${drawProblems(file, text, problems, lead)}\n`);
  io.document?.problems.push(
    ...problems.map(({ found, wanted, offset, length, code }) => {
      const { number: line, column } = lineAt(text, offset);
      return { severity, message: `found ${found}; wanted ${wanted}`, file, line, column, length, code };
    }),
  );
}

/** Likewise a mistake that has no place in a file. */
export function reportMistake(
  io: Pick<ReadingIo, 'stderr' | 'document'>,
  { message }: Pick<UsageError, 'message'>,
): void {
  io.stderr.write(`eddylift: ${message}\n`);
  const nowhere = { file: null, line: null, column: null, length: null, code: null };
  io.document?.problems.push({ severity: 'error', message, ...nowhere });
}
