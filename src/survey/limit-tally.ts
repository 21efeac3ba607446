import type { FrontArchive } from '../front/front-archive.ts';
import { column, type RowBatch } from '../model/rows.ts';
import { isEvaluated, STATUS } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import type { Unit } from '../model/units.ts';
import { type LimitReading, readingOf } from './limit-reading.ts';
import { beats } from './main-effects.ts';

/** How many designs miss one limit of the study, and how near the nearest of them comes. */
export interface LimitMisses {
  readonly text: string;
  /** Designs that miss it. */
  readonly missed: number;
  /** Designs that miss it and no other. */
  readonly alone: number;
  /** Of those that miss it; null where a miss cannot be measured. */
  readonly nearest: NearestMiss | null;
}

export interface NearestMiss {
  readonly design: number;
  /** Of what the limit bounds, SI. */
  readonly value: number;
  readonly label: string;
  readonly unit: Unit;
}

/** What one limit does to the front. */
export interface LimitEffect extends LimitMisses {
  /** Designs that it alone keeps off the front: the limit binds where there are any. None of those that rest. */
  readonly kept: number;
  /** Best value per objective among those, SI; NaN where there are none. */
  readonly best: readonly number[];
}

/** The one tally of limits, of all rows in design order. */
export interface LimitTally {
  add(batch: RowBatch): void;
  misses(): LimitMisses[];
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
  study: Pick<Study, 'limits' | 'objectives' | 'derive'>,
  newArchive: () => Archive,
): LimitTally {
  const shared = study.limits.length - LAST_BIT;
  const tallies = study.limits.slice(0, LAST_BIT + 1).map((limit, bit) => {
    const isShared = bit === LAST_BIT && shared > 1;
    return {
      text: isShared ? `one of the last ${shared} limits` : limit.text,
      reading: isShared ? null : readingOf(study, limit),
      bit: (1 << bit) >>> 0,
      missed: 0,
      alone: 0,
      nearest: NOTHING_YET,
      archive: newArchive(),
    };
  });
  const missesOf = ({ text, missed, alone, nearest, reading }: (typeof tallies)[number]): LimitMisses => {
    const { design, value } = nearest;
    const { label, unit } = reading ?? {};
    const isMeasured = label !== undefined && unit !== undefined && design >= 0;
    return { text, missed, alone, nearest: isMeasured ? { design, value, label, unit } : null };
  };
  return {
    add(batch) {
      const columns = study.objectives.map((_, o) => column(batch, batch.objectives, o));
      for (const tally of tallies) {
        const mask = new Uint8Array(batch.count);
        const { missed, alone } = countMisses(batch, tally.bit, mask);
        tally.missed += missed;
        tally.alone += alone;
        if (missed > 0 && tally.reading) {
          tally.nearest = nearestMiss(batch, tally.bit, tally.reading, tally.nearest);
        }
        if (alone > 0) tally.archive.add(batch.first, columns, mask);
      }
    },
    misses: () => tallies.map(missesOf),
    effects: (front) =>
      tallies.map((tally) => {
        tally.archive.add(ON_FRONT, front);
        const { ids, columns } = tally.archive.front();
        const joining = [...ids.keys()].filter((row) => ids[row]! < ON_FRONT);
        return {
          ...missesOf(tally),
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

/** Designs that cannot be built miss no limit. Sets `mask` to 1 where a row misses the limit of this bit and no other, and does not rest. */
function countMisses({ count, unmet, status }: RowBatch, bit: number, mask: Uint8Array) {
  let missed = 0;
  let alone = 0;
  for (let row = 0; row < count; row++) {
    const bits = unmet[row]! >>> 0;
    if ((bits & bit) === 0 || !isEvaluated(status[row]!)) continue;
    missed++;
    if (bits === bit) {
      alone++;
      if (status[row] !== STATUS.rests) mask[row] = 1;
    }
  }
  return { missed, alone };
}

interface Nearest {
  readonly design: number;
  readonly value: number;
  readonly rests: boolean;
}

const NOTHING_YET: Nearest = { design: -1, value: Number.NaN, rests: true };

/** The design that misses a limit by least; one that rests never before one that does not. */
function nearestMiss(batch: RowBatch, bit: number, reading: LimitReading, before: Nearest): Nearest {
  let nearest = before;
  for (let row = 0; row < batch.count; row++) {
    if (((batch.unmet[row]! >>> 0) & bit) === 0 || !isEvaluated(batch.status[row]!)) continue;
    const rests = batch.status[row] === STATUS.rests;
    const value = reading.at(batch, row);
    if (Number.isNaN(value) || (rests && !nearest.rests)) continue;
    const isNearer = reading.isCeiling ? value < nearest.value : value > nearest.value;
    if (nearest.design < 0 || rests !== nearest.rests || isNearer) {
      nearest = { design: batch.first + row, value, rests };
    }
  }
  return nearest;
}
