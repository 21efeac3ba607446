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
  const plain =
    currency === null ? text : text.replace(new RegExp(`(?<=[\\d.] *)\\b${currency}\\b`, 'g'), '(1)');
  const outcome = compile(plain);
  if (outcome.ok) return { ok: true, value: { ...outcome.value, text } };
  const { flaw } = outcome;
  if (flaw.at === undefined || !FOREIGN.test(text.slice(flaw.at, flaw.at + (flaw.length ?? 0))))
    return outcome;
  const wanted =
    currency === null
      ? 'a stock file with a currency, for amounts of money'
      : `an amount in ${currency}, the currency of the stock file; or a known name`;
  return { ok: false, flaw: { ...flaw, wanted } };
}

/** What may be the name of another currency. */
const FOREIGN = /^[A-Z]{3}$/;
