import type { ProblemEntry } from '../documents/document-shapes.ts';

/** A stream of text, perhaps a terminal. */
export interface Output extends NodeJS.WritableStream {
  readonly isTTY?: boolean;
  /** Width of the terminal in characters. */
  readonly columns?: number;
}

/** What somebody types, perhaps at a terminal. */
export interface Input extends NodeJS.ReadableStream {
  readonly isTTY?: boolean;
}

/** All that a command knows of the world: it can be run without a process. */
export interface Io {
  readonly stdout: Output;
  readonly stderr: Output;
  /** Left out where there is no terminal. */
  readonly stdin?: Input | undefined;
  /** Relative paths start here. */
  readonly cwd: string;
  /** ms since 1970. */
  readonly now: () => number;
  /** Aborted when the user wants the command to stop. */
  readonly signal: AbortSignal;
  /** Where one document for a program is printed; then text for people goes to stderr. Left out: wherever text goes. */
  readonly document?: DocumentPrinter;
  /** Whether a line of a terminal may be written over again, as a progress bar does. */
  readonly redraws?: boolean;
  /** For tests, which run the sources: the built module of a worker thread. */
  readonly worker?: URL;
}

/** Enough of it to read a study. */
export type ReadingIo = Pick<Io, 'cwd' | 'signal' | 'stdin' | 'document'> & {
  readonly stderr: Pick<Output, 'write'>;
};

/** Prints one document, and takes what it is to print of problems. */
export interface DocumentPrinter {
  readonly problems: ProblemEntry[];
  readonly printed: boolean;
  print(text: string): void;
}

/** The same world for a command that prints one document for a program: what it prints for people goes to stderr. */
export function withDocument(io: Io): Io & { readonly document: DocumentPrinter } {
  const { stdout, stderr, cwd, now, signal, redraws, worker } = io;
  let printed = false;
  const document: DocumentPrinter = {
    problems: [],
    get printed() {
      return printed;
    },
    print(text) {
      printed = true;
      stdout.write(text);
    },
  };
  return {
    ...{ stdout: stderr, stderr, cwd, now, signal, document },
    ...(redraws !== undefined && { redraws }),
    ...(worker && { worker }),
    // a stream that nobody reads is not opened
    get stdin() {
      return io.stdin;
    },
  };
}

/** How a command ended, for the shell. */
export const EXIT = Object.freeze({
  done: 0,
  unexpected: 1,
  /** A mistake in the study or on the command line; nothing was written. */
  usage: 2,
  someFailed: 3,
  interrupted: 130,
});

/** Of several studies' exit codes, the one to end with: an interruption tops all, and a mistake a failed design. */
const FROM_BEST_TO_WORST: readonly number[] = [
  EXIT.done,
  EXIT.someFailed,
  EXIT.usage,
  EXIT.unexpected,
  EXIT.interrupted,
];

export function worse(a: number, b: number): number {
  return FROM_BEST_TO_WORST.indexOf(a) >= FROM_BEST_TO_WORST.indexOf(b) ? a : b;
}
