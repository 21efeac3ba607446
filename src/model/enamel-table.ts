/**
 * Increase in diameter due to enamel: maximum overall diameter minus nominal conductor diameter, um, for
 * grades 1, 2 and 3 of IEC 60317-0-1 Table 1 (R 20 series of nominal diameters, mm).
 *
 * Read on quotations of the standard (a maker's sheet to DIN EN 60317-0-1 for grades 1 and 2; charts to its
 * Indian adoption IS 13730-0-1, whose gauge sizes take the next larger nominal's increase, for grade 3 and
 * the remaining sizes). From memory: 0.71, grade 3 of 1.4, and everything above 3.15.
 */
// biome-ignore format: a table reads better in rows
export const ENAMEL_INCREASE: readonly (readonly [nominalMm: number, g1: number, g2: number, g3: number])[] = [
  [0.071, 13, 20, 26],
  [0.08, 14, 21, 28],
  [0.09, 15, 23, 30],
  [0.1, 17, 25, 32],
  [0.112, 18, 27, 35],
  [0.125, 19, 29, 38],
  [0.14, 20, 31, 41],
  [0.16, 22, 34, 45],
  [0.18, 24, 37, 49],
  [0.2, 26, 39, 52],
  [0.224, 28, 42, 56],
  [0.25, 31, 47, 62],
  [0.28, 32, 49, 65],
  [0.315, 34, 52, 69],
  [0.355, 37, 56, 73],
  [0.4, 39, 59, 78],
  [0.45, 41, 63, 83],
  [0.5, 44, 66, 87],
  [0.56, 46, 70, 93],
  [0.63, 49, 74, 98],
  [0.71, 52, 79, 104],
  [0.8, 55, 84, 111],
  [0.9, 59, 89, 118],
  [1, 62, 94, 124],
  [1.12, 64, 97, 128],
  [1.25, 66, 99, 131],
  [1.4, 68, 102, 135],
  [1.6, 70, 106, 140],
  [1.8, 72, 109, 144],
  [2, 74, 112, 148],
  [2.24, 76, 115, 152],
  [2.5, 78, 118, 156],
  [2.8, 80, 122, 161],
  [3.15, 83, 126, 166],
  [3.55, 85, 129, 171],
  [4, 88, 133, 176],
  [4.5, 91, 137, 181],
  [5, 93, 141, 186],
];
