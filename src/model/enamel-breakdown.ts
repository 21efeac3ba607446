/**
 * Minimum breakdown voltage of enamelled round wire, V rms between the two wires of a twisted pair (two films), for
 * grades 1 and 2 by bare diameter, mm: IS 13730 / IS 13778, the Indian adoptions of IEC 60317 / 60851, as a maker
 * reproduces them. Grade 3 of IEC 60317-0-1 is not there.
 */
// biome-ignore format: a table reads better in rows
const ENAMEL_BREAKDOWN: readonly (readonly [diameterMm: number, g1: number, g2: number])[] = [
  [0.102, 1300, 2700],
  [0.193, 1800, 3500],
  [0.254, 2200, 4000],
  [0.315, 2200, 4100],
  [0.457, 2400, 4600],
  [0.508, 2500, 4600],
  [0.61, 2600, 4800],
  [0.711, 2600, 4900],
  [2.337, 2700, 5000],
];

/** Thicker wires are tested in metal foil or shot, through one film: V rms, the same source. */
const ENAMEL_BREAKDOWN_FOIL: readonly [g1: number, g2: number] = [1300, 2500];

const ROUNDING = 1e-9;

/**
 * Peak voltage that one enamel film withstands at least in its standard's test, V. The test voltage is rms: peak is
 * sqrt(2) of it; a twisted pair is two films: half of it. A size between two rows takes the value of the next smaller,
 * which is the lower of the two.
 *
 * @param bareDiameter m, 0.102 to 5 mm; thinner, or a grade other than 1 and 2: NaN (grade 3 is at least grade 2 and
 *   is given its value)
 */
export function enamelBreakdown(bareDiameter: number, grade: number): number {
  const mm = bareDiameter * 1e3 * (1 + ROUNDING);
  if (!(mm >= ENAMEL_BREAKDOWN[0]![0] && mm <= 5 * (1 + 2 * ROUNDING))) return Number.NaN;
  if (grade !== 1 && grade !== 2 && grade !== 3) return Number.NaN;
  const column = grade === 1 ? 1 : 2;
  if (mm > LAST * (1 + 2 * ROUNDING)) return Math.SQRT2 * ENAMEL_BREAKDOWN_FOIL[column === 1 ? 0 : 1];
  let pair = 0;
  // from 0.813 mm on the last row's value holds, down to where 0.711 mm ends
  for (const row of ENAMEL_BREAKDOWN) if (mm >= (row[0] === LAST ? THICK : row[0])) pair = row[column];
  return (Math.SQRT2 * pair) / 2;
}

/** The last row spans 0.813 to 2.337 mm. */
const THICK = 0.813;
const LAST = 2.337;
