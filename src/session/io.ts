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
  /** Left out where nobody can be asked. */
  readonly stdin?: Input;
  /** Relative paths start here. */
  readonly cwd: string;
  /** ms since 1970. */
  readonly now: () => number;
  /** Aborted when the user wants the command to stop. */
  readonly signal: AbortSignal;
  /** For tests, which run the sources: the built module of a worker thread. */
  readonly worker?: URL;
}

/** Enough of it to read a study. */
export type ReadingIo = Pick<Io, 'cwd' | 'signal'> & { readonly stderr: Pick<Output, 'write'> };

/** What the process says about how a command ended. */
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
