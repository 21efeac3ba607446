import { RENAMED } from '../model/renamed.ts';

const FORMER = new Map([...RENAMED].map(([then, now]) => [now, then]));

/** What a statistic puts to the name of its quantity: `height_p95`. */
const STATISTIC = /_p\d+$/;

/** Names under which the column of a quantity may stand in a part: today's, and that of an earlier version. */
export function columnNamesOf(quantity: string): readonly string[] {
  const statistic = STATISTIC.exec(quantity)?.[0] ?? '';
  const then = FORMER.get(quantity.slice(0, quantity.length - statistic.length));
  return then === undefined ? [quantity] : [quantity, then + statistic];
}
