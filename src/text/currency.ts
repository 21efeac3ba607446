import type { Study } from '../model/study.ts';
import { UNITS, type Unit } from '../model/units.ts';

/** A unit as machines read it: that of money is the study's currency; none where no stock file names one. */
export function unitInCurrency({ symbol }: Pick<Unit, 'symbol'>, study: Pick<Study, 'stock'>): string {
  const written = inCurrency(symbol, study);
  return written === UNITS.money.symbol ? '' : written;
}

/** The sign of UNITS.money, and what a study's stock file calls its currency in its place. */
export function inCurrency(text: string, { stock }: Pick<Study, 'stock'>): string {
  const currency = stock?.currency;
  return currency ? text.replaceAll(UNITS.money.symbol, currency) : text;
}
