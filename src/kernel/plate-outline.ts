/** A rectangular plate longer than this many widths is no disc's equal. */
const MOST_OBLONG = 1.5;

/**
 * Radius of the disc that lifts like a square or rectangular plate of the same make: that of equal area, shortened,
 *   R = sqrt(a b / pi) (1 - 0.045 (a/b)^1.75),  a >= b   (a square: R = 0.539 a),
 * since current in the corners does little. Lengths in m; NaN where a > 1.5 b.
 *
 * Accuracy, by our own sheets on triangles (test/kernel/plate-outline.test.ts), half sides of 0.5 to 1.3 coil radii,
 * sheets like 3 and 12 mm of aluminium at 50 Hz, gaps of 0.06 and 0.12 coil radii: lift within 4 % for a square, 8 %
 * for 4:3, 13 % for 3:2; loss within 5, 8 and 9 %.
 */
export function equalDiscRadius(one: number, other: number): number {
  const oblong = Math.max(one, other) / Math.min(one, other);
  if (oblong > MOST_OBLONG * (1 + 1e-9)) return Number.NaN;
  return Math.sqrt((one * other) / Math.PI) * (1 - 0.045 * oblong ** 1.75);
}

/** How far that disc's lift is off at most, relative (see above). */
export function equalDiscError(one: number, other: number): number {
  const oblong = Math.max(one, other) / Math.min(one, other);
  if (oblong < 1.05) return 0.04;
  return oblong < 1.4 ? 0.08 : 0.13;
}
