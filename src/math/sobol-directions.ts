/** Degree s and coefficients a of a primitive polynomial over GF(2), and the first s direction numbers m. */
type Row = readonly [s: number, a: number, m: readonly number[]];

/**
 * Dimensions 2 to 32 of the direction numbers new-joe-kuo-6 of S. Joe, F. Y. Kuo, Constructing Sobol sequences with
 * better two-dimensional projections, SIAM J. Sci. Comput. 30 (2008) 2635-2654, doi:10.1137/070709359, as SciPy 1.17
 * carries them (scipy.stats.qmc.Sobol). The first dimension has no row: its direction numbers are all 1.
 */
// biome-ignore format: a table reads better in rows
export const DIRECTIONS: readonly Row[] = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]],
  [5, 2, [1, 1, 5, 5, 17]],
  [5, 4, [1, 1, 5, 5, 5]],
  [5, 7, [1, 1, 7, 11, 19]],
  [5, 11, [1, 1, 5, 1, 1]],
  [5, 13, [1, 1, 1, 3, 11]],
  [5, 14, [1, 3, 5, 5, 31]],
  [6, 1, [1, 3, 3, 9, 7, 49]],
  [6, 13, [1, 1, 1, 15, 21, 21]],
  [6, 16, [1, 3, 1, 13, 27, 49]],
  [6, 19, [1, 1, 1, 15, 7, 5]],
  [6, 22, [1, 3, 1, 15, 13, 25]],
  [6, 25, [1, 1, 5, 5, 19, 61]],
  [7, 1, [1, 3, 7, 11, 23, 15, 103]],
  [7, 4, [1, 3, 7, 13, 13, 15, 69]],
  [7, 7, [1, 1, 3, 13, 7, 35, 63]],
  [7, 8, [1, 3, 5, 9, 1, 25, 53]],
  [7, 14, [1, 3, 1, 13, 9, 35, 107]],
  [7, 19, [1, 3, 1, 5, 27, 61, 31]],
  [7, 21, [1, 1, 5, 11, 19, 41, 61]],
  [7, 28, [1, 3, 5, 3, 3, 13, 69]],
  [7, 31, [1, 1, 7, 13, 1, 19, 1]],
  [7, 32, [1, 3, 7, 5, 13, 19, 59]],
  [7, 37, [1, 1, 3, 9, 25, 29, 41]],
  [7, 41, [1, 3, 5, 13, 23, 1, 55]],
  [7, 42, [1, 3, 7, 3, 13, 59, 17]],
];
