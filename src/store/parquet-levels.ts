import { writeVarint } from './varint.ts';

/**
 * Which cells of a Parquet page are not empty: its definition levels, 0 or 1, in the format's hybrid of runs. One run of bits,
 * or, where that is shorter, a run for each stretch of equal levels.
 */
export interface ParquetLevels {
  /** `present`: 1 where a cell is not empty; `empty`: how many are. Good until the next. */
  of(present: Uint8Array, empty: number): Uint8Array;
}

/** Bytes of a stretch: its length, which takes three up to a million, and its level. */
const LONGEST_RUN = 4;
/** Of the length of a run of bits. */
const LONGEST_LENGTH = 5;

export function createParquetLevels(): ParquetLevels {
  let room = new Uint8Array(0);
  return {
    of(present, empty) {
      const groups = Math.ceil(present.length / 8);
      if (room.length < groups + LONGEST_LENGTH) room = new Uint8Array(groups + LONGEST_LENGTH);
      const isOne = empty === 0 || empty === present.length;
      const isShort = isOne || stretches(present) * LONGEST_RUN <= groups;
      return room.subarray(0, isShort ? writeRuns(present, isOne, room) : writeBits(present, groups, room));
    },
  };
}

function stretches(present: Uint8Array): number {
  let found = 1;
  for (let i = 1; i < present.length; i++) if (present[i] !== present[i - 1]) found++;
  return found;
}

function writeRuns(present: Uint8Array, isOne: boolean, into: Uint8Array): number {
  let end = 0;
  for (let from = 0; from < present.length; ) {
    const level = present[from]!;
    let to = isOne ? present.length : from + 1;
    while (to < present.length && present[to] === level) to++;
    end = writeVarint(into, end, 2 * (to - from));
    into[end++] = level;
    from = to;
  }
  return end;
}

/** Eight a byte, the first lowest; what is missing in the last group is 0. */
function writeBits(present: Uint8Array, groups: number, into: Uint8Array): number {
  const start = writeVarint(into, 0, 2 * groups + 1);
  into.fill(0, start, start + groups);
  for (let i = 0; i < present.length; i++) into[start + (i >> 3)]! |= present[i]! << (i & 7);
  return start + groups;
}
