import { BEYOND_SUPPLY, FUSE_SIDES, SLOT } from '../model/inputs.ts';
import type { Limit } from '../model/program.ts';
import { Q } from '../model/quantities.ts';
import type { ValuesOf } from './complete.ts';

/**
 * The limit that a supply implies: what it cannot give is no design. None for a drive that stops at the supply's limits by
 * itself, where the study allows drives beyond, and where no limit is given. A fuse on the line's side needs the line
 * voltage to be judged by.
 */
export function supplyLimits(atLimit: boolean, values: ValuesOf): Limit[] {
  const has = (slot: number): boolean => values(slot).every((value) => !Number.isNaN(value));
  if (atLimit || values(SLOT.beyondSupply).includes(BEYOND_SUPPLY.allowed)) return [];
  const onLine = values(SLOT.fuseSide).includes(FUSE_SIDES.line);
  const judgesFuse = has(SLOT.fuseRating) && (!onLine || has(SLOT.lineVoltage));
  if (!has(SLOT.maxVoltage) && !has(SLOT.maxCurrent) && !judgesFuse) return [];
  return [
    {
      text: 'supply_loading <= 1',
      comparison: '<=',
      left: [{ op: 'quantity', index: Q.supply_loading }],
      right: [{ op: 'constant', value: 1 }],
      implied: true,
    },
  ];
}
