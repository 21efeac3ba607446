import type { FrontArchive } from '../front/front-archive.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { beats } from './main-effects.ts';

/** What one limit of the study does. */
export interface LimitEffect {
  readonly text: string;
  /** Designs that miss it. */
  readonly missed: number;
  /** Designs that miss it and no other. */
  readonly alone: number;
  /** Designs that it alone keeps off the front: the limit binds where there are any. */
  readonly kept: number;
  /** Best value per objective among those, SI; NaN where there are none. */
  readonly best: readonly number[];
}

export interface LimitTally {
  add(batch: RowBatch): void;
  /** `front` holds one column an objective. */
  effects(front: readonly Float64Array[]): LimitEffect[];
}

type Archive = Pick<FrontArchive, 'add' | 'front'>;

/** Ids of the front among those that a limit shuts out: beyond any design's. */
const ON_FRONT = 2 ** 52;

/** Limits share the 32 bits of RowBatch.unmet: those from this one on share the last. */
const LAST_BIT = 31;

/** `newArchive` makes an empty archive for the study's objectives. */
export function createLimitTally(
  study: Pick<Study, 'limits' | 'objectives'>,
  newArchive: () => Archive,
): LimitTally {
  const shared = study.limits.length - LAST_BIT;
  const tallies = study.limits.slice(0, LAST_BIT + 1).map(({ text }, bit) => ({
    text: bit === LAST_BIT && shared > 1 ? `one of the last ${shared} limits` : text,
    bit: (1 << bit) >>> 0,
    missed: 0,
    alone: 0,
    archive: newArchive(),
  }));
  return {
    add(batch) {
      const columns = study.objectives.map((_, o) => column(batch, batch.objectives, o));
      for (const tally of tallies) {
        const mask = new Uint8Array(batch.count);
        const { missed, alone } = countMisses(batch, tally.bit, mask);
        tally.missed += missed;
        tally.alone += alone;
        if (alone > 0) tally.archive.add(batch.first, columns, mask);
      }
    },
    effects: (front) =>
      tallies.map(({ text, missed, alone, archive }) => {
        archive.add(ON_FRONT, front);
        const { ids, columns } = archive.front();
        const joining = [...ids.keys()].filter((row) => ids[row]! < ON_FRONT);
        return {
          text,
          missed,
          alone,
          kept: joining.length,
          best: study.objectives.map(({ sense }, o) =>
            joining.reduce((best, row) => {
              const value = columns[o]![row]!;
              return beats(value, best, sense) ? value : best;
            }, Number.NaN),
          ),
        };
      }),
  };
}

/** Sets `mask` to 1 where a row misses the limit of this bit and no other. */
function countMisses({ count, unmet }: RowBatch, bit: number, mask: Uint8Array) {
  let missed = 0;
  let alone = 0;
  for (let row = 0; row < count; row++) {
    const bits = unmet[row]! >>> 0;
    if ((bits & bit) === 0) continue;
    missed++;
    if (bits === bit) {
      alone++;
      mask[row] = 1;
    }
  }
  return { missed, alone };
}
