import { Readable, Writable } from 'node:stream';
import { UsageError } from '../../errors.ts';
import { type DocumentPrinter, type Io, type Output, withDocument } from '../../session/io.ts';
import { EddyliftError } from '../types.ts';

/** What a command tells people, line by line, goes to whoever calls. */
export type Listener = (text: string) => void;

export interface WorldOptions {
  readonly signal?: AbortSignal | undefined;
  readonly onText?: Listener | undefined;
  /** What `-` stands for. */
  readonly stdin?: string | undefined;
}

/** The world of a call: no terminal, no exit, problems kept. */
export function createWorld({ signal, onText, stdin }: WorldOptions = {}): Io & {
  readonly document: DocumentPrinter;
} {
  const output = writable(onText ?? (() => {}));
  return withDocument({
    stdout: output,
    stderr: output,
    cwd: process.cwd(),
    now: () => Date.now(),
    signal: signal ?? new AbortController().signal,
    redraws: false,
    ...(stdin !== undefined && { stdin: Readable.from([stdin]) }),
  });
}

function writable(listen: Listener): Output {
  return new Writable({
    decodeStrings: false,
    write(chunk: string, _encoding, done) {
      listen(String(chunk));
      done();
    },
  });
}

/** Throws what was found wrong as one error. */
export function throwProblems({ document }: { readonly document: DocumentPrinter }, cause?: unknown): never {
  const problems = document.problems.filter(({ severity }) => severity === 'error');
  const message = problems
    .map(({ file, line, column, message: what }) =>
      line === null ? what : `${file}:${line}:${column}: ${what}`,
    )
    .join('\n');
  throw new EddyliftError(message, document.problems, { cause });
}

/** Runs what may throw a mistake of the caller, which becomes an EddyliftError. */
export async function worded<T>(act: () => T | Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw asOurs(error);
  }
}

/** An error as callers may expect it; a bug stays what it is. */
export function asOurs(error: unknown): unknown {
  if (!(error instanceof UsageError)) return error;
  const nowhere = { file: null, line: null, column: null, length: null, code: null };
  return new EddyliftError(error.message, [{ severity: 'error', message: error.message, ...nowhere }], {
    cause: error,
  });
}
