/** Rated currents of fuse links gG, A: IEC 60269-1 (from memory; 16 to 63 A stand in its table of gates, seen quoted). */
export const GG_RATINGS: readonly number[] = [
  2, 4, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000,
  1250,
];

/**
 * Rated currents of miniature fuse links, A: IEC 60127-2, sheets 3 and 5, which follow the series R 10 of ISO 3 (from
 * memory; 0.5, 1, 2, 3.15, 4 and 6.3 A seen on makers' sheets).
 */
export const MINIATURE_RATINGS: readonly number[] = [
  0.032, 0.04, 0.05, 0.063, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2,
  2.5, 3.15, 4, 5, 6.3, 8, 10,
];

/** Preferred rated currents of miniature circuit-breakers, A: IEC 60898-1 (from memory). */
export const BREAKER_RATINGS: readonly number[] = [6, 8, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125];
