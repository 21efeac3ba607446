import {
  GG_GATES,
  type MiniatureGate,
  SHEET_3,
  SHEET_3_RATINGS,
  SHEET_3_TINY,
  SHEET_5_LARGE,
  SHEET_5_RATINGS,
  SHEET_5_SMALL,
} from './fuse-table.ts';

/** Fuse kinds: gG (IEC 60269), time-lag miniature of sheet 3 and of sheet 5 (IEC 60127-2). */
export const FUSE_KIND = Object.freeze({ gG: 0, 'T sheet 3': 1, 'T sheet 5': 2 });

/** What the standard promises of a fuse link that carries a current from cold. */
export interface FuseTimes {
  /** Holds at least this long, s; Infinity: for good (at most the rating). */
  holds: number;
  /** Has blown at the latest after this, s; Infinity: it need not blow. NaN: the standard gives nothing. */
  blows: number;
}

/**
 * Conventional non-fusing current over rating: carried for the conventional time without blowing.
 * gG: 1.5 below 16 A, 1.25 from 16 A on (IEC 60269-1 Table 2; below 16 A from memory). Miniature: 1.5.
 */
export function nonFusingRatio(kind: number, rating: number): number {
  return kind === FUSE_KIND.gG && rating >= 16 ? 1.25 : 1.5;
}

/** Conventional fusing current over rating: blows within the conventional time. gG 2.1, 1.9, 1.6 by size; miniature 2.1. */
export function fusingRatio(kind: number, rating: number): number {
  if (kind !== FUSE_KIND.gG || rating <= 4) return 2.1;
  return rating < 16 ? 1.9 : 1.6;
}

/** Conventional time of a gG fuse, s: 1 h to 63 A, 2 h to 160 A, 3 h to 400 A, 4 h above (IEC 60269-1; from memory). */
export function conventionalTime(rating: number): number {
  if (rating <= 63) return 3600;
  if (rating <= 160) return 7200;
  return rating <= 400 ? 10800 : 14400;
}

/**
 * Bounds of the time for which a fuse carries `current` (A rms, on its own side) from cold. A longer time is promised
 * only by a gate at this current or a larger one, a blow only by a gate at this current or a smaller one: nothing is
 * interpolated. gG ratings without tabulated gates have the conventional currents alone.
 *
 * @param kind of FUSE_KIND
 * @param rating A, > 0
 * @param out holds: 0 when nothing is promised; blows: Infinity up to the non-fusing current, NaN where neither the
 *   current must blow the fuse nor the standard excuses it. Both NaN for a rating the kind does not come in.
 */
export function fuseTimes(kind: number, rating: number, current: number, out: FuseTimes): void {
  if (current <= rating) {
    out.holds = Number.POSITIVE_INFINITY;
    out.blows = Number.POSITIVE_INFINITY;
    if (kind !== FUSE_KIND.gG && miniatureSheet(kind, rating) === null) clear(out);
    return;
  }
  if (kind === FUSE_KIND.gG) gG(rating, current, out);
  else miniature(kind, rating, current, out);
}

function clear(out: FuseTimes): void {
  out.holds = Number.NaN;
  out.blows = Number.NaN;
}

function gG(rating: number, current: number, out: FuseTimes): void {
  const hour = conventionalTime(rating);
  const holdsFor = nonFusingRatio(FUSE_KIND.gG, rating) * rating;
  let holds = current <= holdsFor ? hour : 0;
  let blows = current >= fusingRatio(FUSE_KIND.gG, rating) * rating ? hour : Number.NaN;
  if (current <= holdsFor) blows = Number.POSITIVE_INFINITY;
  for (let i = 0; i < GG_GATES.length; i++) {
    const gate = GG_GATES[i]!;
    if (gate[0] !== rating) continue;
    if (holds === 0) holds = current <= gate[1] ? 10 : current <= gate[3] ? 0.1 : 0;
    if (current >= gate[4]) blows = 0.1;
    else if (current >= gate[2]) blows = 5;
  }
  out.holds = holds;
  out.blows = blows;
}

function miniature(kind: number, rating: number, current: number, out: FuseTimes): void {
  const sheet = miniatureSheet(kind, rating);
  if (sheet === null) {
    clear(out);
    return;
  }
  const multiple = current / rating;
  let holds = 0;
  let blows = Number.NaN;
  for (let i = 0; i < sheet.length; i++) {
    const [at, shortest, longest] = sheet[i]!;
    if (multiple <= at) holds = Math.max(holds, shortest);
    if (multiple >= at && longest !== Number.POSITIVE_INFINITY) blows = longest;
  }
  out.holds = holds;
  out.blows = multiple <= sheet[0]![0] ? Number.POSITIVE_INFINITY : blows;
}

function miniatureSheet(kind: number, rating: number): readonly MiniatureGate[] | null {
  if (kind === FUSE_KIND['T sheet 3']) {
    if (rating < SHEET_3_RATINGS.smallest || rating > SHEET_3_RATINGS.largest) return null;
    return rating < SHEET_3_RATINGS.step ? SHEET_3_TINY : SHEET_3;
  }
  if (rating < SHEET_5_RATINGS.smallest || rating > SHEET_5_RATINGS.largest) return null;
  return rating < SHEET_5_RATINGS.step ? SHEET_5_SMALL : SHEET_5_LARGE;
}
