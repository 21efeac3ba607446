/** One part of a study's work out of several that are done apart: every `of`-th piece, beginning with piece `part`, counted from 1. */
export interface Share {
  readonly part: number;
  readonly of: number;
}
