import { flawed, type Outcome } from '../expression/outcome.ts';
import { quote } from './clean.ts';

/** What a price is for. */
export type PricedBy = 'kg' | 'm' | 'm2' | 'piece';

export interface Price {
  readonly amount: number;
  /** ISO 4217, such as EUR. */
  readonly currency: string;
  readonly per: PricedBy;
  readonly written: string;
}

const SHAPE = /^\s*(\d+\.?\d*|\.\d+)\s*([A-Za-z]{3})\s*\/\s*(kg|m|m2|m\^2|m²|piece)\s*$/;

/** Reads a price such as `14 EUR/kg`; `kinds`: what it may be for. */
export function readPrice(written: number | string, kinds: readonly PricedBy[]): Outcome<Price> {
  const text = `${written}`;
  const examples = kinds.map((kind) => `12 EUR/${kind}`).join(' or ');
  const wanted = `a price with its currency and what it is for: ${examples}`;
  const match = SHAPE.exec(text);
  if (!match) return flawed('price-without-unit', quote(text), wanted);
  const [, amount, currency, unit] = match;
  const per = (unit!.startsWith('m') && unit !== 'm' ? 'm2' : unit) as PricedBy;
  if (!kinds.includes(per)) return flawed('price-of-what', quote(text), wanted);
  return {
    ok: true,
    value: { amount: Number(amount), currency: currency!.toUpperCase(), per, written: text },
  };
}
