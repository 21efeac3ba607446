import type { Random } from '../math/random.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { RowBatch } from '../model/rows.ts';
import { STATUS } from '../model/status.ts';

/** Which rows to compute again: any one, and one that floats where there is one, since it has most to be wrong. */
export function chooseRows({ status, count }: RowBatch, random: Random): readonly number[] {
  const any = random.below(count);
  let floating = 0;
  for (const found of status) if (found === STATUS.lifts) floating++;
  if (floating === 0) return [any];
  let left = random.below(floating);
  const chosen = status.findIndex((found) => found === STATUS.lifts && left-- === 0);
  return [...new Set([chosen, any])];
}

/** One design of a batch, as work of its own. */
export function singleDesign({ first, count, values }: RowBatch, index: number) {
  const width = values.length / count;
  return { first: first + index, count: 1, values: values.slice(index * width, (index + 1) * width) };
}

/** How row `index` of what was brought differs from the same design computed here, in words; null: not in one bit. */
export function differenceOf(brought: RowBatch, index: number, here: RowBatch): string | null {
  for (const key of ['status', 'reason', 'feasible', 'unmet', 'violation'] as const) {
    if (!Object.is(brought[key][index], here[key][0])) {
      return `${key} ${brought[key][index]} instead of ${here[key][0]}`;
    }
  }
  for (const key of ['quantities', 'derived', 'objectives'] as const) {
    for (let c = 0; c < here[key].length; c++) {
      const found = brought[key][c * brought.count + index];
      if (Object.is(found, here[key][c])) continue;
      const name = key === 'quantities' ? QUANTITIES[c]!.name : `${key} column ${c + 1}`;
      return `${name} ${found} instead of ${here[key][c]}`;
    }
  }
  return null;
}
