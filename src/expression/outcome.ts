/** What is wrong with an expression or a measure: `at` and `length` are character positions in its text. */
export interface Flaw {
  readonly code: string;
  readonly found: string;
  readonly wanted: string;
  readonly at: number;
  readonly length: number;
}

export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly flaw: Flaw };

export function flawed(
  code: string,
  found: string,
  wanted: string,
  at = 0,
  length = Number.MAX_SAFE_INTEGER,
): { readonly ok: false; readonly flaw: Flaw } {
  return { ok: false, flaw: { code, found, wanted, at, length } };
}
