import type { Outcome } from './outcome.ts';

/**
 * Compiles an expression that may name the study's currency: `rig_cost <= 60 EUR`. Costs are pure numbers of it, so its
 * name stands for 1; the three characters of `(1)` leave every other place in the text where it was.
 */
export function inItsCurrency<Value extends { readonly text: string }>(
  text: string,
  currency: string | null,
  compile: (text: string) => Outcome<Value>,
): Outcome<Value> {
  if (currency === null) return compile(text);
  const outcome = compile(text.replace(new RegExp(`(?<=[\\d.] *)\\b${currency}\\b`, 'g'), '(1)'));
  return outcome.ok ? { ok: true, value: { ...outcome.value, text } } : outcome;
}
