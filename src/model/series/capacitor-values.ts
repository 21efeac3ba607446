/** Mantissas of the series E 6 of IEC 60063 (from memory): 10^(n/6), rounded, from which a test lets them differ by 5 %. */
const E6 = [1, 1.5, 2.2, 3.3, 4.7, 6.8] as const;

/** Microfarads from 0.001 to 68,000: what capacitors of a series circuit are sold in. */
export const E6_CAPACITANCES: readonly number[] = [-3, -2, -1, 0, 1, 2, 3, 4].flatMap((decade) =>
  E6.map((mantissa) => Number(`${mantissa}e${decade}`)),
);
