/**
 * A problem in a study file is data: several travel together, and `drawProblems` (study/) turns each into
 * text with its line and a caret. What was found and what is wanted are worded where both are known.
 */
export interface Problem {
  /** 0-based character offset into the file, and how many characters the caret underlines. */
  readonly offset: number;
  readonly length: number;
  readonly code: string;
  /** What was found. */
  readonly found: string;
  /** What is wanted instead. */
  readonly wanted: string;
}

/** A mistake of the person at the keyboard (a path, an option, a folder): printed in one line, exit code 2. */
export class UsageError extends Error {
  override name = 'UsageError';
}
