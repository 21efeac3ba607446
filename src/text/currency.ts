import type { Study } from '../model/study.ts';

/** The sign of UNITS.money, and what a study's stock file calls its currency in its place. */
export function inCurrency(text: string, { stock }: Pick<Study, 'stock'>): string {
  const currency = stock?.currency;
  return currency ? text.replaceAll('¤', currency) : text;
}
