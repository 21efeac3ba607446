/** A cell of a row: a number in the unit of its column, a word, true or false; null where there is nothing to tell. */
export type Cell = number | string | boolean | null;

/** One design by column name, as in the tables: `{ coil_turns: 440, status: 'lifts', height_mm: 39.38, … }`. */
export type Row = Readonly<Record<string, Cell>>;

/** What a column of a study's rows is. */
export interface Column {
  /** `height_mm`: with the unit at its end. */
  readonly name: string;
  readonly label: string;
  readonly kind: 'integer' | 'number' | 'text' | 'boolean';
  /** As people write it, such as `A/mm²`; empty for a pure number. */
  readonly unit: string;
  readonly meaning: string;
}

/** What is wrong with a study, or what a study has that is hardly meant. */
export interface StudyProblem {
  readonly severity: 'error' | 'warning';
  readonly message: string;
  /** Null for what has no place in a file; line and column count from 1. */
  readonly file: string | null;
  readonly line: number | null;
  readonly column: number | null;
  readonly length: number | null;
  readonly code: string | null;
}

/** A study, a value or a folder that cannot be used. The message is what the command line would print. */
export class EddyliftError extends Error {
  override name = 'EddyliftError';
  readonly problems: readonly StudyProblem[];

  constructor(message: string, problems: readonly StudyProblem[], options?: { readonly cause?: unknown }) {
    super(message, options);
    this.problems = problems;
  }
}

/** What a study varies. */
export interface StudyInput {
  /** As the study calls it: `coil.turns`. */
  readonly path: string;
  readonly column: string;
  /** Unit of the column; empty for choices and pure numbers. */
  readonly unit: string;
  /** In that unit, or the names of choices. Of a range that is left to a search, its two ends. */
  readonly values: readonly (number | string)[];
}

/** A study that was read and found sound. It cannot be changed; `evaluate` takes other inputs. */
export interface Study {
  readonly title: string;
  readonly notes: string;
  /** The file as read. */
  readonly text: string;
  /** SHA-256 of the text, hexadecimal. */
  readonly hash: string;
  /** How many designs a run evaluates; of a search, the most that there can be. */
  readonly designs: number;
  readonly inputs: readonly StudyInput[];
  readonly limits: readonly string[];
  readonly objectives: readonly { readonly sense: 'maximise' | 'minimise'; readonly expression: string }[];
  /** Of the rows that `evaluate` returns. */
  readonly columns: readonly Column[];
  readonly warnings: readonly StudyProblem[];
}
