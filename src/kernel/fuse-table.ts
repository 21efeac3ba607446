/**
 * Gates of gG fuse links: currents in A at fixed pre-arcing times, by rating.
 * IEC 60269-1 Table 3 (seen as a secondary quotation): holds 10 s at least at `imin10`, blows within 5 s at `imax5`,
 * holds 0.1 s at `imin01`, blows within 0.1 s at `imax01`.
 */
// biome-ignore format: a table reads better in rows
export const GG_GATES: readonly (readonly [rating: number, imin10: number, imax5: number, imin01: number, imax01: number])[] = [
  // below 16 A: IEC 60269-2 (from memory)
  [2, 3.7, 9.2, 6, 23],
  [4, 7.8, 18.5, 14, 47],
  [6, 11, 28, 26, 72],
  [10, 22, 46.5, 58, 111],
  [16, 33, 65, 85, 150],
  [20, 42, 85, 110, 200],
  [25, 52, 110, 150, 260],
  [32, 75, 150, 200, 350],
  [40, 95, 190, 260, 450],
  [50, 125, 250, 350, 610],
  [63, 160, 320, 450, 820],
];

/** A row of a miniature fuse's sheet: at this multiple of the rating the pre-arcing time lies between, s. */
export type MiniatureGate = readonly [multiple: number, shortest: number, longest: number];

const NO_LIMIT = Number.POSITIVE_INFINITY;

/**
 * Time-lag miniature fuse links of low breaking capacity, IEC 60127-2 standard sheet 3 (a maker's sheet that meets
 * it; ratings 32 mA to 10 A from memory).
 */
export const SHEET_3: readonly MiniatureGate[] = [
  [1.5, 3600, NO_LIMIT],
  [2.1, 0, 120],
  [2.75, 0.6, 10],
  [4, 0.15, 3],
  [10, 0.02, 0.3],
];
/** The same sheet, 32 to 100 mA (from memory). */
export const SHEET_3_TINY: readonly MiniatureGate[] = [
  [1.5, 3600, NO_LIMIT],
  [2.1, 0, 120],
  [2.75, 0.2, 10],
  [4, 0.04, 3],
  [10, 0.01, 0.3],
];
export const SHEET_3_RATINGS = Object.freeze({ smallest: 0.032, step: 0.125, largest: 10 });

/** Time-lag, high breaking capacity, IEC 60127-2 standard sheet 5: 1 to 3.15 A (a maker's sheet). */
export const SHEET_5_SMALL: readonly MiniatureGate[] = [
  [1.5, 3600, NO_LIMIT],
  [2.1, 0, 1800],
  [2.75, 0.75, 80],
  [4, 0.095, 5],
  [10, 0.01, 0.15],
];
/** The same sheet, 4 to 6.3 A. */
export const SHEET_5_LARGE: readonly MiniatureGate[] = [
  [1.5, 3600, NO_LIMIT],
  [2.1, 0, 1800],
  [2.75, 0.75, 80],
  [4, 0.15, 5],
  [10, 0.02, 0.15],
];
export const SHEET_5_RATINGS = Object.freeze({ smallest: 1, step: 4, largest: 6.3 });
