import type { Flaw } from '../expression/outcome.ts';
import type { Spacing } from '../model/study.ts';
import type { RangeShape } from './schema.ts';

/** The values that a range means, SI, or which part of it is wrong. */
export type Levels =
  | { readonly ok: true; readonly levels: ArrayLike<number>; readonly between?: Spacing }
  | { readonly ok: false; readonly flaw: Flaw; readonly part: keyof RangeShape | null };
